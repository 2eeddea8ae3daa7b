// The page on which anybody checks a fingerprint: pasted, or taken of a file in the browser, which never leaves it.
import { DateTime } from 'luxon';
import { FINGERPRINT_WORDS, type Fingerprint } from '@backsight/domain/agreements/papers';
import { html, pageOf, type Html } from './html.ts';

export type Checked = { known: boolean; kind: Fingerprint | null; day: string | null; superseded: boolean };

const answerOf = (sha256: string, checked: Checked | null): Html => {
  if (checked === null)
    return html`<div class="note bad" role="alert" id="problem">
      <p><strong>That is no fingerprint.</strong> A fingerprint (SHA-256) has 64 characters, 0 to 9 and a to f.</p>
    </div>`;
  if (!checked.known || !checked.kind || !checked.day)
    return html`<div class="note bad" role="status">
      <p><strong>No paper of this firm has this fingerprint.</strong> A file of which even one letter was changed has another one.</p>
      <p class="fingerprint">${sha256}</p>
    </div>`;
  return html`<div class="note good" role="status">
    <p><strong>This is ${FINGERPRINT_WORDS[checked.kind]}.</strong></p>
    <p>On record since ${DateTime.fromISO(checked.day, { zone: 'utc', locale: 'en-US' }).toFormat('LLLL d, yyyy')}.</p>
    ${checked.superseded ? html`<p>A newer one took its place since.</p>` : null}
    <p class="fingerprint">${sha256}</p>
  </div>`;
};

/** `asked` is what was typed, trimmed; `checked` null with something asked = not a fingerprint. */
export const verifyPage = (asked: string, checked: Checked | null): string =>
  pageOf(
    'Check a fingerprint',
    html`<h1>Check a fingerprint</h1>
      <p>Every agreement and report of this firm has a fingerprint (SHA-256). Here you see whether a paper is exactly the one on record.</p>
      ${asked === '' ? null : answerOf(asked, checked)}
      <form method="get" action="/verify">
        <label for="file">Take it of a file</label>
        <input type="file" id="file" aria-describedby="stays" />
        <p id="stays">The file stays with you: its fingerprint is taken here, in your browser. Or drop the file anywhere on this page.</p>
        <label for="sha256">Fingerprint</label>
        <input
          type="text"
          id="sha256"
          name="sha256"
          class="fingerprint"
          maxlength="200"
          autocomplete="off"
          spellcheck="false"
          value="${asked}"
          ${asked !== '' && checked === null ? html` aria-invalid="true" aria-describedby="problem"` : null}
        />
        <p id="taken" role="status"></p>
        <button type="submit">Check</button>
      </form>`,
    ['/verify.js'],
  );

/** Takes the SHA-256 of a file by the browser's own Web Crypto, which needs https or localhost. */
export const VERIFY_SCRIPT = `'use strict';
const field = document.getElementById('sha256');
const file = document.getElementById('file');
const taken = document.getElementById('taken');
async function take(one) {
  if (!one) return;
  if (!window.crypto || !crypto.subtle) { taken.textContent = 'This browser takes fingerprints only over https. Paste the fingerprint instead.'; return; }
  taken.textContent = 'Reading ' + one.name + ' ...';
  try {
    const digest = await crypto.subtle.digest('SHA-256', await one.arrayBuffer());
    field.value = Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
    taken.textContent = 'Fingerprint of ' + one.name + ' taken.';
    field.form.requestSubmit();
  } catch { taken.textContent = one.name + ' could not be read.'; }
}
file.addEventListener('change', () => take(file.files[0]));
addEventListener('dragover', (event) => event.preventDefault());
addEventListener('drop', (event) => { event.preventDefault(); take(event.dataTransfer.files[0]); });
`;
