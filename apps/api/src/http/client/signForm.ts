// The form in which a client consents, shows that the format can be opened, and signs; and the two ways not to sign.
import { CAPACITIES, type Capacity } from '@backsight/domain/agreements/signers';
import { FIELD } from '@backsight/domain/shared/strokes';
import type { ClientPage } from '@backsight/usecases/agreements/clientPage';
import { html, type Html } from './html.ts';
import { paragraphs } from './paragraphs.ts';

/** What the client had typed when something was missing, and what that was. */
export type Typed = {
  name: string;
  read: boolean;
  consent: boolean;
  word: string;
  strokes: string;
  interpreter: string;
  reason: string;
  /** What is about no field. */
  problem: string;
  /** What is wrong with each field that is not right, in the order of the page. */
  wrong: Partial<Record<SignField, string>>;
};

/** The fields that may be at fault: where the summary leads, and what it calls them. */
export const SIGN_FIELDS = {
  read: { at: 'read', label: 'That you have read it' },
  word: { at: 'word', label: 'The word in the PDF' },
  consent: { at: 'consent', label: 'That you agree to electronic papers' },
  name: { at: 'name', label: 'Your full name' },
  strokes: { at: 'drawing', label: 'Your drawn signature' },
  reason: { at: 'reason', label: 'Why you do not agree' },
} as const;
export type SignField = keyof typeof SIGN_FIELDS;
export const isSignField = (name: string | undefined): name is SignField => name !== undefined && name in SIGN_FIELDS;

/** What the paper is called in a sentence. */
export const nameOf = ({ release }: ClientPage): string => (release ? 'settlement release' : 'agreement');

const asWhom = (page: ClientPage): Html | null =>
  page.capacity === 'self'
    ? null
    : html`<p>You sign ${CAPACITIES[page.capacity as Capacity]}${page.authority === '' ? '' : `, ${page.authority}`}.</p>`;

const invalid = (typed: Typed | null, field: SignField): Html | null =>
  typed?.wrong[field] === undefined ? null : html` aria-invalid="true" aria-describedby="${field}-wrong"`;

/** What is wrong, beside the field that it is about. */
const wrong = (typed: Typed | null, field: SignField): Html | null =>
  typed?.wrong[field] === undefined ? null : html`<p class="wrong" id="${field}-wrong">${typed.wrong[field]}</p>`;

/** Over everything, with the focus: each field that is not right, and the way to it. */
export function notSigned(typed: Typed): Html {
  const fields = Object.entries(typed.wrong).flatMap(([name, says]) => (isSignField(name) ? [{ ...SIGN_FIELDS[name], says }] : []));
  return html`<div class="note bad" role="alert" id="problem" tabindex="-1" autofocus>
    <p><strong>${typed.problem || 'Not sent yet. Please look at this; what you typed is still here.'}</strong></p>
    ${
      fields.length === 0
        ? null
        : html`<ul>
            ${fields.map(({ at, label, says }) => html`<li><a href="#${at}">${label}</a>: ${says}</li>`)}
          </ul>`
    }
  </div>`;
}

const check = (typed: Typed | null, name: 'read' | 'consent', says: string): Html =>
  html`<label class="check"
      ><input type="checkbox" id="${name}" name="${name}" value="yes" ${typed?.[name] ? html` checked` : null}${invalid(typed, name)} />
      <span>${says}</span></label
    >${wrong(typed, name)}`;

export const signForm = (page: ClientPage, typed: Typed | null, token: string): Html =>
  html`<form method="post" id="signing" data-keep="signing">
    <h2>Sign</h2>
    ${asWhom(page)}
    <input type="hidden" name="sha256" value="${page.sha256}" />
    ${check(typed, 'read', `I have read the ${nameOf(page)} above.`)}
    <h3>Electronic records: your choice</h3>
    <div class="paper">${paragraphs(page.consentText)}</div>
    <p>
      <a href="/client/${token}/agreement.pdf" target="_blank" rel="noopener">Open the ${nameOf(page)} as a PDF (opens beside this page)</a
      >. At its top stands a word of your own. Type it here to show that you can open such a file.
    </p>
    <label for="word">The word in the PDF</label>
    <input
      type="text"
      id="word"
      name="word"
      autocomplete="off"
      autocapitalize="none"
      spellcheck="false"
      maxlength="40"
      value="${typed?.word ?? ''}"
      ${invalid(typed, 'word')}
    />
    ${wrong(typed, 'word')}
    ${check(typed, 'consent', 'I agree to sign and to receive these papers electronically, and I could open the PDF.')}
    <h3>Your signature</h3>
    <label for="name">Your full name</label>
    <input type="text" id="name" name="name" autocomplete="name" maxlength="120" value="${typed?.name ?? ''}" ${invalid(typed, 'name')} />
    ${wrong(typed, 'name')} ${drawField(typed)}
    <label for="interpreter">Interpreter, if somebody read this to you in another language</label>
    <p class="hint" id="interpreter-hint">You may leave this empty.</p>
    <input
      type="text"
      id="interpreter"
      name="interpreter"
      maxlength="120"
      aria-describedby="interpreter-hint"
      value="${typed?.interpreter ?? ''}"
    />
    <button type="submit" name="act" value="sign">Sign the ${nameOf(page)}</button>
  </form>`;

/** Hidden until the script shows it: without a script the typed name is the signature. */
const drawField = (typed: Typed | null): Html =>
  html`<div id="drawing" hidden>
    <fieldset ${invalid(typed, 'strokes')}>
      <legend>Sign by</legend>
      <label class="check"
        ><input type="radio" name="how" value="typed" ${typed?.strokes ? null : html` checked`} />
        <span>typing: the name above is my signature</span></label
      >
      <label class="check"
        ><input type="radio" name="how" value="drawn" ${typed?.strokes ? html` checked` : null} />
        <span>drawing with a finger, pen or mouse</span></label
      >
    </fieldset>
    <div id="pad" hidden>
      <canvas
        width="${FIELD.width}"
        height="${FIELD.height}"
        role="img"
        aria-label="Field to draw your signature in. Without a pen choose typing above."
      ></canvas>
      <p><button type="button" class="quiet" id="clear">Draw it again</button> <span id="drawn" role="status"></span></p>
    </div>
    <input type="hidden" name="strokes" value="${typed?.strokes ?? ''}" />
    ${wrong(typed, 'strokes')}
  </div>`;

/** Paper instead, or no. */
export const otherwise = (page: ClientPage, typed: Typed | null): Html =>
  html`<section class="screen">
    <h2>${page.signed ? 'You want paper from now on' : 'You would rather not sign here'}</h2>
    <form method="post">
      <p>
        ${
          page.signed
            ? 'You may take your consent to electronic records back at any time. What you signed stays valid; later papers come on paper. It costs nothing.'
            : 'You may have everything on paper. It costs nothing.'
        }
      </p>
      <button type="submit" class="quiet" name="act" value="paper">
        ${page.signed ? 'Take my consent back; send paper' : 'I want paper instead'}
      </button>
    </form>
    ${
      page.signed
        ? null
        : html`<form method="post" data-keep="reason">
            <label for="reason">You do not agree? Tell us why; the office calls you</label>
            <textarea id="reason" name="reason" rows="2" maxlength="1000" ${invalid(typed, 'reason')}>${typed?.reason ?? ''}</textarea>
            ${wrong(typed, 'reason')}
            <button type="submit" class="quiet" name="act" value="decline">Decline to sign</button>
          </form>`
    }
    <p>
      Questions? Call ${page.firm} at <a href="tel:${page.firmPhone}">${page.firmPhone}</a>.
      <a href="/complaints">How we handle a complaint</a>.
    </p>
  </section>`;
