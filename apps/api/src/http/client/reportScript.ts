// The small script of the reporting page: it keeps what is typed on this device until it is sent, and sends photos one after the other.
import { MOST_CLIENT_PHOTOS } from '@backsight/contract/callbacks/intake';
import { MOST_MEGABYTES } from '@backsight/usecases/sitework/steps/image';

export const REPORT_SCRIPT = `(function () {
  var form = document.getElementById('report');
  var sentNote = document.getElementById('sent');
  if (sentNote) sentNote.focus();
  if (!form || !window.fetch || !window.FormData) return;
  var token = location.pathname.split('/')[2], kept = 'report-' + form.dataset.job, photos = [], number = null;
  var trouble = document.getElementById('trouble'), doing = document.getElementById('doing'), list = document.getElementById('chosen');
  var files = document.getElementById('files'), button = form.querySelector('button[type=submit]');
  function value(name) { var field = form.elements[name]; return field && field.value ? field.value : ''; }
  function ticked() { return [].filter.call(form.querySelectorAll('input[name=dangers]'), function (i) { return i.checked; }).map(function (i) { return i.value; }); }
  function body() {
    var b = { token: token, id: value('id'), matter: value('matter'), system: value('system'), place: value('place'), dangers: ticked(), hope: value('hope'), words: value('words') };
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
    doing.textContent = 'What you typed before is still here.';
  }
  function say(lines, focus) {
    trouble.textContent = ''; trouble.hidden = lines.length === 0;
    lines.forEach(function (line) { var p = document.createElement('p'); p.textContent = line; trouble.appendChild(p); });
    if (lines.length && focus) trouble.focus();
  }
  function newId() {
    var b = crypto.getRandomValues(new Uint8Array(16)); b[6] = (b[6] & 15) | 64; b[8] = (b[8] & 63) | 128;
    var h = [].map.call(b, function (x) { return ('0' + x.toString(16)).slice(-2); }).join('');
    return h.slice(0, 8) + '-' + h.slice(8, 12) + '-' + h.slice(12, 16) + '-' + h.slice(16, 20) + '-' + h.slice(20);
  }
  function show() {
    list.textContent = '';
    photos.forEach(function (photo, at) {
      var li = document.createElement('li'), drop = document.createElement('button');
      li.textContent = photo.file.name + (photo.sent ? ': sent' : photo.refused ? ': not taken. ' + photo.refused : '') + ' ';
      if (!photo.sent) {
        drop.type = 'button'; drop.className = 'quiet'; drop.textContent = 'Leave out'; drop.setAttribute('aria-label', 'Leave out ' + photo.file.name);
        drop.addEventListener('click', function () { photos.splice(at, 1); show(); files.focus(); });
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
      reader.onerror = function () { fail(new Error('unreadable')); };
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
  function post(path, sent, key) {
    return fetch(path, { method: 'POST', headers: { 'content-type': 'application/json', 'idempotency-key': key }, body: JSON.stringify(sent) }).then(function (reply) {
      return reply.json().catch(function () { return {}; }).then(function (json) {
        if (reply.ok) return json;
        if (reply.status >= 500 || reply.status === 429) throw new Error('later');
        throw { refused: json };
      });
    });
  }
  var NAMES = { place: 'Where in the house', words: 'What is it', hope: 'What do you hope', since: 'Since when', discoveredOn: 'Since when' };
  function reasons(problem) {
    if (problem.errors && problem.errors.length) return problem.errors.map(function (e) { return (NAMES[e.field] || e.field) + ': ' + e.message; });
    return [problem.title || 'This could not be taken.'];
  }
  function sendPhotos() {
    return photos.filter(function (p) { return !p.sent && !p.refused; }).reduce(function (before, photo) {
      return before.then(function () {
        doing.textContent = 'Sending ' + photo.file.name;
        return Promise.all([base64(photo.file), jpegOf(photo.file)]);
      }).then(function (read) {
        return post('/api/client/reports/photos', { token: token, reportId: value('id'), id: photo.id, name: photo.file.name.slice(-200) || 'photo', original: read[0], jpeg: read[1] }, photo.id);
      }).then(function () { photo.sent = true; }, function (error) {
        if (!error || !error.refused) throw error;
        photo.refused = reasons(error.refused).join(' ');
      });
    }, Promise.resolve());
  }
  form.addEventListener('input', keep);
  // Photos are not kept on this device: whoever leaves before they are sent is asked first.
  window.addEventListener('beforeunload', function (event) {
    if (photos.some(function (p) { return !p.sent && !p.refused; })) { event.preventDefault(); event.returnValue = ''; }
  });
  form.addEventListener('submit', function (event) {
    event.preventDefault();
    button.disabled = true; say([]); doing.textContent = 'Sending'; keep();
    (number === null ? post('/api/client/reports', body(), value('id')).then(function (made) { number = made.number; forget(); }) : Promise.resolve())
      .then(sendPhotos)
      .then(function () {
        show();
        var no = photos.filter(function (p) { return p.refused; });
        if (!no.length) { forget(); form.reset(); location.href = location.pathname + '?sent=' + number + '#sent'; return; }
        doing.textContent = '';
        say(['We have your report. Its number is ' + number + '.', 'Not every photo was taken:'].concat(no.map(function (p) { return p.file.name + ': ' + p.refused; })), true);
        photos = photos.filter(function (p) { return !p.refused; });
      }, function (error) {
        doing.textContent = ''; show();
        if (error && error.refused) say(['Not sent yet. Nothing that you typed is lost.'].concat(reasons(error.refused)), true);
        else if (number !== null) say(['We have your report. Its number is ' + number + '. The photos are not all sent: there is no connection. Press Send again when it is back.'], true);
        else say(['Not sent: there is no connection. What you typed stays on this phone. Press Send again when the connection is back.'], true);
      })
      .then(function () { button.disabled = false; });
  });
  document.getElementById('photos').hidden = false;
  bring(); show();
})();
`;
