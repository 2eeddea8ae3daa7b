// Sentences of the mails about appointments, and the mail to the firm's own people.
import { formatUsd } from '../shared/money.ts';

export const SIGNING_OVER = 'There is nothing left to sign; the link that we sent you is closed.';

const paidBack = (cents: number): string =>
  cents > 0 ? `You have paid ${formatUsd(cents)}. We give it back to you, and no invoice stays open.` : 'Nothing is left to pay.';

/** What a cancelling costs, and what this person gets back; `paidCents` is what goes back to him. */
export const moneyWords = (paidCents: number, kept: { cents: number; hours: number } | null): string =>
  kept
    ? `It was cancelled less than ${kept.hours} hours before, so ${formatUsd(kept.cents)} of the fee is charged.${
        paidCents > 0 ? ` You have paid more: we give ${formatUsd(paidCents)} back to you.` : ''
      }`
    : paidBack(paidCents);

/** Who comes, and who comes along and counts toward no rule. Empty when nobody is known yet. */
export function comesWords(pair: readonly string[], along: readonly string[] = []): string {
  const pairComes = pair.length > 0 ? `${pair.join(' and ')} will come.` : null;
  const others =
    along.length > 0 ? `${along.join(' and ')} will come along to observe and ${along.length === 1 ? 'does' : 'do'} not inspect.` : null;
  return [pairComes, others].filter((text) => text !== null).join(' ');
}

const walkThroughWords = (at: string): string =>
  `The walk-through with you begins at ${at}; come then if you do not want to be there from the start.`;

/** When the client's side is to be there, at '11:40 AM': for the walk-through, or from the start. */
export const thereWords = (at: string, forWalkThrough: boolean): string =>
  forWalkThrough ? walkThroughWords(at) : `Please be there at ${at}.`;

export type Coming = {
  pair: readonly string[];
  /** When the client's side is to be there, '11:40 AM'; null when nobody comes. */
  arriveAt: string | null;
  forWalkThrough: boolean;
  /** Who attends, as the office wrote it down; empty: not said. */
  attendees: string;
};

/** Who of the firm comes, when the client is to be there, and who attends. Empty when nothing of it is known. */
export const comingWords = ({ pair, arriveAt, forWalkThrough, attendees }: Coming): string =>
  [
    comesWords(pair),
    arriveAt === null ? '' : thereWords(arriveAt, forWalkThrough),
    attendees === '' ? '' : `Who attends, as we noted it: ${attendees}.`,
  ]
    .filter((text) => text !== '')
    .join(' ');

export type AgreementAfterMove = 'stands' | 'new' | 'superseded' | 'none';

const ABOUT_AGREEMENT: Record<AgreementAfterMove, string> = {
  stands: 'The agreement as signed stays in force; only the time is the new one.',
  new: 'The agreement names the time, so you get a new one to read and sign in a mail of its own.',
  superseded:
    'The fee changed with the time, so you get a new agreement to read and sign in a mail of its own. It takes the place of the one before.',
  none: '',
};

/** What becomes of the agreement when a visit was moved. */
export const agreementWords = (agreement: AgreementAfterMove): string => ABOUT_AGREEMENT[agreement];

export type PairNote = {
  name: string;
  what: string;
  number: number;
  address: string;
  /** When this person goes now, and when he was to go; null where he does not, or did not. */
  now: string | null;
  before: string | null;
  with: readonly string[];
};

/** Tells one of the firm's own people that a visit is his, has another time, or is his no more. */
export const pairMail = (m: PairNote): string =>
  [
    `${m.name},`,
    m.now === null
      ? `the ${m.what} of job ${m.number} at ${m.address} is no longer yours. It was ${m.before}.`
      : `you go to the ${m.what} of job ${m.number} at ${m.address} on ${m.now}${m.with.length > 0 ? `, with ${m.with.join(' and ')}` : ''}.`,
    ...(m.now !== null && m.before !== null ? [`It was ${m.before}.`] : []),
  ].join('\n\n');
