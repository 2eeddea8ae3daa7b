// The small script of the reporting page: it keeps what is typed on this device until it is sent, says beside a field what is missing before
// anything is sent, and sends photos one after the other.
import { MOST_CLIENT_PHOTOS } from '@backsight/contract/callbacks/intake';
import { MOST_MEGABYTES } from '@backsight/usecases/sitework/steps/image';
import { REPORT_FIELDS } from './reportFields.ts';

const FIELDS_PART = `
  var FIELDS = ${JSON.stringify(REPORT_FIELDS)};
  function at(name) { return document.getElementById(name); }
  function value(name) { var field = form.elements[name]; return field && field.value ? field.value : ''; }
  function mark(name, says) {
    at(name + '-wrong').textContent = says;
    if (says) at(name).setAttribute('aria-invalid', 'true'); else at(name).removeAttribute('aria-invalid');
  }
  function clear() { Object.keys(FIELDS).forEach(function (name) { mark(name, ''); }); }
  function missing() {
    return Object.keys(FIELDS).reduce(function (all, name) {
      var says = '', f = FIELDS[name], text = value(name).trim();
      if (f.empty && !text) says = f.empty; else if (f.most && text.length > f.most) says = f.wrong;
      else if (form.elements[name].validity && !form.elements[name].validity.valid) says = f.wrong;
      return says ? all.concat({ field: name, says: says }) : all;
    }, []);
  }
  function point(found) {
    found.forEach(function (one) { mark(one.field, one.says); });
    say(['Not sent yet. Nothing that you typed is lost.'].concat(found.map(function (one) { return FIELDS[one.field].label; })), false);
    var first = at(found[0].field); (first.matches('fieldset') ? first.querySelector('input') : first).focus();
  }
  function say(lines, focus) {
    trouble.textContent = ''; trouble.hidden = lines.length === 0;
    lines.forEach(function (line) { var p = document.createElement('p'); p.textContent = line; trouble.appendChild(p); });
    if (lines.length && focus) trouble.focus();
  }`;

const DRAFT_PART = `
  function body() {
    var b = { token: token, id: value('id'), matter: value('matter'), system: value('system'), place: value('place'), hope: value('hope'), words: value('words') };
    b.dangers = [].filter.call(form.querySelectorAll('input[name=dangers]'), function (i) { return i.checked; }).map(function (i) { return i.value; });
    if (value('since')) b.since = value('since');
    return b;
  }
  function keep() { if (number === null) try { localStorage.setItem(kept, JSON.stringify(body())); } catch (e) {} }
  function forget() { try { localStorage.removeItem(kept); } catch (e) {} }
  function bring() {
    var b; try { b = JSON.parse(localStorage.getItem(kept) || 'null'); } catch (e) { b = null; }
    if (!b || value('words') || value('place')) return;
    ['id', 'system', 'place', 'since', 'hope', 'words', 'matter'].forEach(function (name) { if (b[name] && form.elements[name]) form.elements[name].value = b[name]; });
    [].forEach.call(form.querySelectorAll('input[name=dangers]'), function (i) { i.checked = (b.dangers || []).indexOf(i.value) >= 0; });
    if (b.words || b.place) doing.textContent = 'What you typed before is still here.';
  }`;

const PHOTOS_PART = `
  function newId() {
    var b = crypto.getRandomValues(new Uint8Array(16)); b[6] = (b[6] & 15) | 64; b[8] = (b[8] & 63) | 128;
    var h = [].map.call(b, function (x) { return ('0' + x.toString(16)).slice(-2); }).join('');
    return h.slice(0, 8) + '-' + h.slice(8, 12) + '-' + h.slice(12, 16) + '-' + h.slice(16, 20) + '-' + h.slice(20);
  }
  function show() {
    list.textContent = '';
    photos.forEach(function (photo, n) {
      var li = document.createElement('li'), drop = document.createElement('button');
      li.textContent = photo.file.name + (photo.sent ? ': sent' : photo.refused ? ': not taken. ' + photo.refused : '') + ' ';
      if (!photo.sent) {
        drop.type = 'button'; drop.className = 'quiet'; drop.textContent = 'Leave out'; drop.setAttribute('aria-label', 'Leave out ' + photo.file.name);
        drop.addEventListener('click', function () { photos.splice(n, 1); show(); files.focus(); });
        li.appendChild(drop);
      }
      list.appendChild(li);
    });
  }
  files.addEventListener('change', function () {
    var no = [];
    [].forEach.call(files.files, function (file) {
      if (photos.length >= ${MOST_CLIENT_PHOTOS}) no.push(file.name + ': ${MOST_CLIENT_PHOTOS} photos are the most. Please mail us the rest.');
      else if (file.size > ${MOST_MEGABYTES} * 1048576) no.push(file.name + ': larger than ${MOST_MEGABYTES} MB. Please send a smaller one.');
      else photos.push({ id: newId(), file: file });
    });
    files.value = ''; show(); say(no, true);
  });
  function base64(blob) {
    return new Promise(function (done, fail) {
      var reader = new FileReader();
      reader.onload = function () { done(String(reader.result).split(',')[1] || ''); };
      reader.onerror = function () { fail({ refused: { title: 'This photo cannot be read.' } }); };
      reader.readAsDataURL(blob);
    });
  }
  function jpegOf(file) {
    if (!/hei[cf]$/i.test(file.type) && !/\\.hei[cf]$/i.test(file.name)) return Promise.resolve(null);
    return createImageBitmap(file).then(function (picture) {
      var scale = Math.min(1, 2000 / Math.max(picture.width, picture.height)), canvas = document.createElement('canvas');
      canvas.width = Math.round(picture.width * scale); canvas.height = Math.round(picture.height * scale);
      canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
      return new Promise(function (done) { canvas.toBlob(done, 'image/jpeg', 0.8); });
    }).then(base64).catch(function () { return null; });
  }
  function sendPhotos() {
    var all = photos.filter(function (p) { return !p.sent && !p.refused; });
    return all.reduce(function (before, photo, n) {
      var says = 'Sending photo ' + (n + 1) + ' of ' + all.length;
      return before.then(function () {
        doing.textContent = says;
        return Promise.all([base64(photo.file), jpegOf(photo.file)]);
      }).then(function (read) {
        var sent = { token: token, reportId: value('id'), id: photo.id, name: photo.file.name.slice(-200) || 'photo', original: read[0], jpeg: read[1] };
        return post('/api/client/reports/photos', sent, photo.id, function (part) { doing.textContent = says + ': ' + part + ' %'; });
      }).then(function () { photo.sent = true; }, function (error) {
        if (!error || !error.refused) throw error;
        photo.refused = titleOf(error.refused);
      });
    }, Promise.resolve());
  }`;

const SEND_PART = `
  function post(path, sent, key, part) {
    return new Promise(function (done, fail) {
      var call = new XMLHttpRequest();
      call.open('POST', path);
      call.setRequestHeader('content-type', 'application/json'); call.setRequestHeader('idempotency-key', key);
      if (part) call.upload.onprogress = function (e) { if (e.lengthComputable) part(Math.floor(100 * e.loaded / e.total)); };
      call.onerror = call.ontimeout = function () { fail(new Error('later')); };
      call.onload = function () {
        var json; try { json = JSON.parse(call.responseText); } catch (e) { json = {}; }
        if (call.status >= 200 && call.status < 300) done(json);
        else if (call.status >= 500 || call.status === 429) fail(new Error('later'));
        else fail({ refused: json });
      };
      call.send(JSON.stringify(sent));
    });
  }
  function titleOf(problem) { return problem.title || 'This could not be taken.'; }
  var SAME = { discoveredOn: 'since', remedySought: 'hope' };
  function refused(problem) {
    var found = (problem.errors || [{ field: problem.field, message: problem.title }]).map(function (e) {
      var name = SAME[e.field] || e.field; return { field: name, says: problem.errors ? (FIELDS[name] || {}).wrong : e.message };
    });
    if (found.every(function (one) { return FIELDS[one.field]; })) point(found);
    else say(['Not sent yet. Nothing that you typed is lost.', titleOf(problem)], true);
  }
  function whole() {
    show();
    var no = photos.filter(function (p) { return p.refused; });
    if (!no.length) { forget(); form.reset(); location.href = location.pathname + '?sent=' + number + '#sent'; return; }
    doing.textContent = '';
    say(['We have your report. Its number is ' + number + '.', 'Not every photo was taken:'].concat(no.map(function (p) { return p.file.name + ': ' + p.refused; })), true);
    photos = photos.filter(function (p) { return !p.refused; });
  }
  function broken(error) {
    doing.textContent = ''; show();
    if (error && error.refused) refused(error.refused);
    else if (number !== null) say(['We have your report. Its number is ' + number + '. The photos are not all sent: there is no connection. Press Send again when it is back.'], true);
    else say(['Not sent: there is no connection. What you typed stays on this phone. Press Send again when the connection is back.'], true);
  }
  form.addEventListener('input', keep);
  // Photos are not kept on this device: whoever leaves before they are sent is asked first.
  window.addEventListener('beforeunload', function (event) {
    if (photos.some(function (p) { return !p.sent && !p.refused; })) { event.preventDefault(); event.returnValue = ''; }
  });
  form.addEventListener('submit', function (event) {
    event.preventDefault();
    if (button.disabled) return;
    clear(); say([]);
    var found = missing();
    if (found.length && number === null) { point(found); return; }
    button.disabled = true; doing.textContent = 'Sending'; keep();
    (number === null ? post('/api/client/reports', body(), value('id')).then(function (made) { number = made.number; forget(); }) : Promise.resolve())
      .then(sendPhotos).then(whole, broken).then(function () { button.disabled = false; });
  });
  bring(); show();`;

export const REPORT_SCRIPT = `(function () {
  var form = document.getElementById('report'), sentNote = document.getElementById('sent');
  if (sentNote) sentNote.focus();
  if (!form || !window.FormData || !window.Promise) return;
  var token = location.pathname.split('/')[2], kept = 'report-' + form.dataset.job, photos = [], number = null;
  var trouble = document.getElementById('trouble'), doing = document.getElementById('doing'), list = document.getElementById('chosen');
  var files = document.getElementById('files'), button = form.querySelector('button[type=submit]');
  ${FIELDS_PART}${DRAFT_PART}${PHOTOS_PART}${SEND_PART}
})();
`;
