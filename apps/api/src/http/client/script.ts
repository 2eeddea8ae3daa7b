// The small script of the signing page: it shows the field for drawing and keeps the pen's strokes as numbers. The page works without it.
import { FIELD, LONGEST_DRAWING, MOST_POINTS } from '@backsight/domain/shared/strokes';

export { LONGEST_DRAWING };

export const SCRIPT = `(function () {
  var box = document.getElementById('drawing'), pad = document.getElementById('pad');
  if (!box || !pad || !window.PointerEvent) return;
  var canvas = pad.querySelector('canvas'), pen = canvas.getContext('2d');
  var field = box.querySelector('input[name=strokes]'), said = document.getElementById('drawn');
  var strokes = [], line = null, points = 0;
  function draw() {
    pen.clearRect(0, 0, ${FIELD.width}, ${FIELD.height});
    pen.lineWidth = 3; pen.lineCap = 'round'; pen.lineJoin = 'round'; pen.strokeStyle = getComputedStyle(canvas).color;
    strokes.forEach(function (s) {
      pen.beginPath(); pen.moveTo(s[0], s[1]);
      for (var i = 0; i < s.length; i += 2) pen.lineTo(s[i], s[i + 1]);
      pen.stroke();
    });
  }
  function keep() {
    field.value = strokes.length ? JSON.stringify(strokes) : '';
    said.textContent = strokes.length ? 'Your signature is drawn.' : '';
  }
  function at(event) {
    var r = canvas.getBoundingClientRect();
    function unit(v, from, size, most) { return Math.max(0, Math.min(most, Math.round((v - from) / size * most))); }
    return [unit(event.clientX, r.left, r.width, ${FIELD.width}), unit(event.clientY, r.top, r.height, ${FIELD.height})];
  }
  function add(event) {
    var p = at(event), n = line.length;
    if (points >= ${MOST_POINTS} || (n && line[n - 2] === p[0] && line[n - 1] === p[1])) return;
    line.push(p[0], p[1]); points += 1;
  }
  canvas.addEventListener('pointerdown', function (event) {
    event.preventDefault(); canvas.setPointerCapture(event.pointerId);
    line = []; add(event); if (line.length) strokes.push(line); draw();
  });
  canvas.addEventListener('pointermove', function (event) { if (line) { add(event); draw(); } });
  function end() { if (line) { line = null; keep(); } }
  canvas.addEventListener('pointerup', end); canvas.addEventListener('pointercancel', end);
  document.getElementById('clear').addEventListener('click', function () { strokes = []; points = 0; draw(); keep(); });
  function show() { pad.hidden = !box.querySelector('input[value=drawn]').checked; }
  box.addEventListener('change', show);
  try { strokes = field.value ? JSON.parse(field.value) : []; } catch (e) { strokes = []; }
  points = strokes.reduce(function (n, s) { return n + s.length / 2; }, 0);
  box.hidden = false; show(); draw(); keep();
})();
`;
