// The words of the mails that tell a client that an appointment was cancelled or moved.
import { formatUsd } from '../shared/money.ts';

type Sender = { firm: string; firmPhone: string };

const letter = (name: string, paragraphs: readonly (string | null)[], { firm, firmPhone }: Sender): string =>
  [`Dear ${name},`, ...paragraphs.filter((text) => text !== null), `Questions? Please call us at ${firmPhone}.`, firm].join('\n\n');

export type Cancelled = Sender & {
  name: string;
  address: string;
  appointment: string;
  paidCents: number;
  askedToSign: boolean;
  kept: { cents: number; hours: number } | null;
};

const paidBack = (cents: number): string =>
  cents > 0 ? `You have paid ${formatUsd(cents)}. We give it back to you, and no invoice stays open.` : 'Nothing is left to pay.';

const keptOf = ({ cents, hours }: { cents: number; hours: number }, backCents: number): string =>
  `It was cancelled less than ${hours} hours before, so ${formatUsd(cents)} of the fee is charged.${
    backCents > 0 ? ` You have paid more: we give ${formatUsd(backCents)} back to you.` : ''
  }`;

/** Says that the appointment does not take place; `paidCents` is what this person paid and gets back. */
export const cancelledMail = (m: Cancelled): string =>
  letter(
    m.name,
    [
      `the appointment for the inspection of ${m.address} was cancelled. It was to be on ${m.appointment}.`,
      m.askedToSign ? 'There is nothing left to sign; the link that we sent you is closed.' : null,
      m.kept ? keptOf(m.kept, m.paidCents) : paidBack(m.paidCents),
    ],
    m,
  );

export type Moved = Sender & {
  name: string;
  what: string;
  address: string;
  before: string;
  after: string;
  pair: readonly string[];
  /** Who comes along and counts toward no rule. */
  along?: readonly string[];
  /** When the walk-through with the client begins; null without one. */
  walkThroughAt?: string | null;
  agreement: 'stands' | 'new' | 'none';
  /** What the move costs, in a sentence; nothing when it costs nothing. */
  fee?: string | null;
};

const comes = (pair: readonly string[], along: readonly string[] = []): string | null => {
  const pairComes = pair.length > 0 ? `${pair.join(' and ')} will come.` : null;
  const others =
    along.length > 0 ? `${along.join(' and ')} will come along to observe and ${along.length === 1 ? 'does' : 'do'} not inspect.` : null;
  return [pairComes, others].filter((text) => text !== null).join(' ') || null;
};

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
    comes(pair),
    arriveAt === null
      ? null
      : forWalkThrough
        ? `The walk-through with you begins at ${arriveAt}; come then if you do not want to be there from the start.`
        : `Please be there at ${arriveAt}.`,
    attendees === '' ? null : `Who attends, as we noted it: ${attendees}.`,
  ]
    .filter((text) => text !== null)
    .join(' ');

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

export type WhoComes = Sender & { name: string; address: string; appointment: string; pair: readonly string[]; along: readonly string[] };

export type Booked = Sender & { name: string; what: string; address: string; appointment: string; pair: readonly string[] };

/** Says when the firm comes again, who comes, and that nothing is charged. */
export const bookedMail = (m: Booked): string =>
  letter(m.name, [`we come to ${m.address} (${m.what}) on ${m.appointment}.`, comes(m.pair), 'Nothing is charged for this visit.'], m);

/** Says who comes to an appointment whose time stays as it is. */
export const whoComesMail = (m: WhoComes): string =>
  letter(m.name, [`about the appointment at ${m.address} on ${m.appointment}: the time stays as it is.`, comes(m.pair, m.along)], m);

const ABOUT_AGREEMENT: Record<Moved['agreement'], string | null> = {
  stands: 'The agreement as signed stays in force; only the time is the new one.',
  new: 'The agreement names the time, so you get a new one to read and sign in a mail of its own.',
  none: null,
};

/** Says the new time of an appointment, who comes, and what becomes of the agreement. */
export const movedMail = (m: Moved): string =>
  letter(
    m.name,
    [
      `the appointment at ${m.address} (${m.what}) was moved. The new time is ${m.after}. It was ${m.before}.`,
      comes(m.pair, m.along),
      m.walkThroughAt
        ? `The walk-through with you begins at ${m.walkThroughAt}; come then if you do not want to be there from the start.`
        : null,
      ABOUT_AGREEMENT[m.agreement],
      m.fee ?? null,
    ],
    m,
  );
