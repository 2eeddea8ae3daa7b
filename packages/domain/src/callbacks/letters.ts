// The letters about a callback: when each may be written, what it says of what was decided, and what may not leave.
import { formatUsd } from '../shared/money.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { MailKind } from '../mail/templates.ts';
import { mayLeave, MADE_TO_SETTLE } from './settlement.ts';
import { isLegal, paysMoney, STATES, type Kind, type RemedyKind, type RemedyState, type State } from './words.ts';

export const LETTERS = {
  acknowledgement: 'Acknowledgement',
  access: 'Request for access before repair',
  visit: 'Visit',
  decision: 'Decision',
  closing: 'Closing',
  appeal: 'Result of the appeal',
} as const;
export type LetterName = keyof typeof LETTERS;

/** The kind of mail whose wording a letter has, on paper too. */
export function mailKindOf(letter: LetterName, kind: Kind): MailKind {
  if (letter === 'acknowledgement') return kind === 'question' ? 'question_acknowledgement' : 'callback_acknowledgement';
  return letter === 'decision' ? 'decision' : `callback_${letter}`;
}

/** Where the private link is put in when the letter leaves. */
export const LINK_PLACE = '{{link}}';

/** The line that leads to the page which tells anybody how a complaint is handled. */
export const processWords = (publicUrl: string): string => `How we handle a complaint, by when, and who decides: ${publicUrl}/complaints`;

const OPEN: readonly State[] = ['received', 'acknowledged', 'looking_into', 'concluded', 'remedy_agreed'];
const DECIDED: readonly State[] = ['concluded', 'remedy_agreed', 'closed'];

export type LetterOn = { state: State; kind: Kind; ownerOnly: boolean; visitBooked: boolean; appealDecided: boolean };

/**
 * Whether the letter has its place now. In a matter for the owner alone, and to the other side of a legal paper, the attorney writes; nobody is written to about a near-miss.
 * Refusals: no-letter-in-this, callback-state, no-visit-booked, no-appeal-decided.
 */
export function mayWriteLetter({ state, kind, ownerOnly, visitBooked, appealDecided }: LetterOn, letter: LetterName): Outcome<null> {
  if (ownerOnly || kind === 'near_miss' || isLegal(kind)) return refuse('no-letter-in-this');
  if (letter === 'access' && kind === 'question') return refuse('question-is-no-callback');
  if (letter === 'visit' && !visitBooked) return refuse('no-visit-booked');
  if (letter === 'appeal' && !appealDecided) return refuse('no-appeal-decided');
  const states = { access: OPEN, decision: DECIDED, closing: ['closed'] as State[], visit: OPEN, acknowledgement: null, appeal: null }[
    letter
  ];
  if (states === null || states.includes(state)) return accept(null);
  return refuse('callback-state', { state: STATES[state], needed: states.map((one) => STATES[one]).join(' or ') });
}

export type DecidedRemedy = { kind: RemedyKind; state: RemedyState; cents: number; payee: string };

/** What was decided, from the remedies that were approved or carried out. A bracket stands where the writer must say more. */
export function decisionWords(remedies: readonly DecidedRemedy[]): string {
  const said = remedies.map(remedyWords).filter((words) => words !== '');
  const offers = remedies.some(({ kind, state }) => paysMoney(kind) && state === 'approved');
  if (said.length === 0) return '[what was decided, and why]';
  return [...said, ...(offers ? [MADE_TO_SETTLE] : [])].join('\n\n');
}

function remedyWords({ kind, state, cents, payee }: DecidedRemedy): string {
  if (state !== 'approved' && state !== 'done') return '';
  const [done, amount] = [state === 'done', formatUsd(cents)];
  switch (kind) {
    case 'fee_refund':
      return done ? `We gave back ${amount} of the fee.` : `We offer to give back ${amount} of the fee.`;
    case 'goodwill_payment':
      return done ? `We paid ${amount} to ${payee}.` : `We offer to pay ${amount} to ${payee}.`;
    case 'independent_contractor':
      return done ? `We paid ${amount} to ${payee} for the work.` : `We offer to pay ${amount} to ${payee} for the work.`;
    case 'revisit':
      return done ? 'We came to your house and looked at it again.' : 'We will come to your house and look at it again.';
    case 'supplement':
      return done ? 'We sent you an addition to our report.' : 'We will send you an addition to our report.';
    case 'own_repair':
      return done ? 'We repaired it.' : 'We will repair it.';
    case 'declined':
      return 'We will do nothing more about this. These are our reasons: [reasons]';
    case 'insurer_notice':
      return '';
  }
}

export type Words = { subject: string; body: string };

export type LetterCheck = {
  letter: LetterName;
  kind: Kind;
  /** The wording that an attorney reviewed; null where nobody did. */
  locked: Words | null;
  isOwner: boolean;
  /** A private link is put in when it leaves. */
  link: boolean;
  /** The insurer's consents, and the owner's reasons why none is needed, on file. */
  clearances: readonly unknown[];
  /** Cents that are no offer: already paid, or named by whoever complained. */
  notOffered: readonly number[];
};

/**
 * Whether a letter may leave as it was edited. Refusals: letter-unfinished, letter-locked-words, letter-without-reservation,
 * payment-needs-clearance, offer-not-marked.
 */
export function checkLetter({ subject, body }: Words, of: LetterCheck): Outcome<{ offers: boolean }> {
  const open = [...`${subject}\n${body}`.matchAll(/\[[^\]\n]{2,120}\]|\{\{[^}]*\}\}/g)]
    .map(([part]) => part)
    .filter((part) => part !== LINK_PLACE || !of.link);
  if (open.length > 0) return refuse('letter-unfinished', { parts: open }, 'body');
  const missing = of.locked ? [...lost(of.locked.subject, subject), ...lost(of.locked.body, body)] : [];
  if (missing.length > 0) return refuse('letter-locked-words', { missing }, 'body');
  const mustReserve = of.locked === null && of.kind !== 'question' && !of.isOwner;
  if (mustReserve && !/without admission of responsibility/i.test(body)) return refuse('letter-without-reservation', {}, 'body');
  const offers = amountsIn(body).some((cents) => !of.notOffered.includes(cents));
  const leave = offers ? mayLeave(of.clearances) : accept(null);
  if (!leave.ok) return { ...leave, field: 'body' };
  if (offers && !/made to settle/i.test(body)) return refuse('offer-not-marked', { mark: MADE_TO_SETTLE }, 'body');
  return accept({ offers });
}

const squeezed = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** The fixed parts of a wording, between its fields, that the text no longer holds in their order. */
function lost(wording: string, text: string): string[] {
  const [kept, gone] = [squeezed(text), [] as string[]];
  let from = 0;
  for (const part of wording
    .split(/\{\{[^}]*\}\}/)
    .map(squeezed)
    .filter((words) => /\w/.test(words))) {
    const at = kept.indexOf(part, from);
    if (at < 0) gone.push(part);
    else from = at + part.length;
  }
  return gone;
}

/** Amounts of money named in a text, in cents. */
export const amountsIn = (text: string): number[] =>
  [...text.matchAll(/\$\s?(\d{1,3}(?:,\d{3})+|\d+)(?:\.(\d{2}))?(?!\d)/g)].map(
    ([, whole, part]) => Number(whole!.replaceAll(',', '')) * 100 + Number(part ?? 0),
  );

/** What an edited letter names that belongs to the opinions of the file: shown beside the editor, never a refusal. */
export function opinionsIn(body: string, of: { causes: readonly string[]; people: readonly string[]; steps: readonly string[] }): string[] {
  const text = squeezed(body).toLowerCase();
  const found = (list: readonly string[]) => list.filter((one) => one.length > 3 && text.includes(one.toLowerCase()));
  return [...found(of.people), ...found(of.causes), ...found(of.steps)];
}
