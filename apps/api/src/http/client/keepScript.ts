// The small script of pages with a form: what is typed outlives a reload, until the tab is closed. The page works without it.

/** Of every form with a `data-keep`: what is typed and ticked, by that name and the address. What the page says itself stands. */
export const KEEP_SCRIPT = `(function () {
  [].forEach.call(document.querySelectorAll('form[data-keep]'), function (form) {
    var key = location.pathname + ' ' + form.dataset.keep, before;
    var fields = [].filter.call(form.elements, function (f) { return f.name && (/^(text|checkbox|radio)$/.test(f.type) || f.localName === 'textarea'); });
    try { before = JSON.parse(sessionStorage.getItem(key) || 'null'); } catch (e) { before = null; }
    if (before && !document.getElementById('problem')) fields.forEach(function (f, n) {
      if (typeof before[n] === 'boolean') f.checked = before[n]; else if (before[n] && !f.value) f.value = before[n];
    });
    form.addEventListener('input', function () {
      var now = fields.map(function (f) { return /^(checkbox|radio)$/.test(f.type) ? f.checked : f.value; });
      try { sessionStorage.setItem(key, JSON.stringify(now)); } catch (e) {}
    });
  });
})();
`;
