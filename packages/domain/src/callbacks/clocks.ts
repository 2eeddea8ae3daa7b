// By when a callback is acknowledged, sorted, visited, answered, decided and told to the insurer: which clock each kind has, and how long it runs.
import type { BusinessCalendar } from '../shared/calendar.ts';
import { deadline } from '../shared/deadline.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { isLegal, paysMoney, type Kind, type RemedyKind, type State } from './words.ts';

export const CLOCKS = {
  acknowledge: 'Acknowledge',
  triage: 'Sort',
  answer: 'Answer',
  visit: 'Visit',
  decision: 'Decide in writing',
  insurer: 'Notice to the insurer',
} as const;
export type Clock = keyof typeof CLOCKS;

/** Times that hold for the firm and not for a kind: how long waiting for a client stays off the homes, and when the next on call is alerted. */
export const FIRM_TIMES = { waiting: 'Waiting for a client', on_call: 'Next person on call' } as const;
export type FirmTime = keyof typeof FIRM_TIMES;

/** `minutes` are minutes of every day; the others but `days` pass only while the office is open. */
export const UNITS = {
  businessDays: 'business days',
  businessMinutes: 'minutes of office hours',
  days: 'days',
  minutes: 'minutes, at any hour',
} as const;
export type Unit = keyof typeof UNITS;
export type Term = { amount: number; unit: Unit; source: string };
export type DatedTerm = Term & { kind: Kind | ''; clock: Clock | FirmTime; fromAt: string };

/**
 * Clocks of each kind. A legal paper has the deadline that stands in it, set by hand, and the insurer to be told; a near-miss has none; a
 * question is answered. Fee and conduct need no visit.
 */
export const CLOCKS_OF: Record<Kind, readonly Clock[]> = {
  missed: ['acknowledge', 'triage', 'visit', 'decision', 'insurer'],
  damage_or_injury: ['acknowledge', 'triage', 'visit', 'decision', 'insurer'],
  conduct: ['acknowledge', 'triage', 'decision', 'insurer'],
  fee: ['acknowledge', 'triage', 'decision'],
  question: ['acknowledge', 'answer'],
  near_miss: [],
  board_complaint: ['insurer'],
  demand_or_suit: ['insurer'],
  records_request: ['insurer'],
};

const days = (amount: number, source: string): Term => ({ amount, unit: 'businessDays', source });
const CUSTOMARY: Record<Clock | FirmTime, Term> = {
  acknowledge: days(1, 'common practice; one certification body publishes 5 working days'),
  triage: days(2, 'common practice'),
  answer: days(5, 'our own number, for want of a custom'),
  visit: days(10, 'common practice: within 5 to 10 business days'),
  decision: days(15, 'common practice; one certification body publishes 15 working days'),
  insurer: {
    amount: 5,
    unit: 'days',
    source: 'policies commonly say "as soon as practicable" and name no number: 5 days is our own; the words of your policy come first',
  },
  waiting: days(5, 'our own number, for want of a custom'),
  on_call: { amount: 15, unit: 'minutes', source: 'common practice' },
};
const LEGAL_INSURER = days(1, 'common practice: a paper that was served goes to the insurer by the next business day');

export const customaryTerm = (kind: Kind | '', clock: Clock | FirmTime): Term =>
  clock === 'insurer' && kind !== '' && isLegal(kind) ? LEGAL_INSURER : CUSTOMARY[clock];

/** The term in force at an instant: the newest that the firm had set by then, else the customary one. Instants are ISO in UTC. */
export function termAt(terms: readonly DatedTerm[], kind: Kind | '', clock: Clock | FirmTime, at: string): Term {
  const set = terms.filter((one) => one.kind === kind && one.clock === clock && Date.parse(one.fromAt) <= Date.parse(at));
  return set.toSorted((a, b) => Date.parse(b.fromAt) - Date.parse(a.fromAt))[0] ?? customaryTerm(kind, clock);
}

const unitsOf = (clock: Clock | FirmTime): readonly Unit[] => {
  if (clock === 'on_call') return ['minutes'];
  if (clock === 'waiting') return ['businessDays'];
  return clock === 'insurer' ? ['days', 'businessDays', 'businessMinutes'] : ['businessDays', 'businessMinutes'];
};

const MOST: Record<Unit, number> = { businessDays: 250, businessMinutes: 100_000, days: 365, minutes: 240 };

/** Whether the firm may set this. A clock that may stand still, or that binds only the firm, runs in business time alone. */
export function mayKeepTerm(kind: Kind | '', clock: Clock | FirmTime, term: Omit<Term, 'source'>): Outcome<null> {
  const known = kind === '' ? clock in FIRM_TIMES : (CLOCKS_OF[kind] as readonly string[]).includes(clock);
  if (!known) return refuse('clock-not-of-kind', {}, 'clock');
  if (!Number.isInteger(term.amount) || term.amount < 1 || term.amount > MOST[term.unit])
    return refuse('clock-amount', { most: MOST[term.unit] }, 'amount');
  return unitsOf(clock).includes(term.unit)
    ? accept(null)
    : refuse('clock-unit', { units: unitsOf(clock).map((unit) => UNITS[unit]) }, 'unit');
}

/** When a clock of a callback that starts at an instant is due (UTC). @throws RangeError for a unit of the firm's own times */
export function dueOf({ amount, unit }: Term, startedAt: string, calendar: BusinessCalendar): string {
  if (unit === 'minutes') throw new RangeError('This unit is for the on-call list.');
  return deadline({ amount, unit }, startedAt, [], calendar)!;
}

const SUM_OF_MONEY = /\$\s?\d|\b\d[\d,.]{0,20}\s{0,4}(?:dollars|USD)\b/i;

/**
 * Whether what came in must be reported under the insurance by itself: a legal paper, damage or injury, or a demand that names a sum. Else it
 * becomes so when money is set aside or a remedy pays some.
 */
export const mustBeReported = (kind: Kind, asked: string): boolean =>
  CLOCKS_OF[kind].includes('insurer') && (isLegal(kind) || kind === 'damage_or_injury' || SUM_OF_MONEY.test(asked));

/** The clocks that start with the reception. The visit waits until a re-visit is agreed: before that nobody has been promised one. */
export const clocksAtReception = (kind: Kind, asked: string): Clock[] =>
  CLOCKS_OF[kind].filter((clock) => clock !== 'visit' && (clock !== 'insurer' || mustBeReported(kind, asked)));

/** What an event does to the clocks of a callback. */
export type ClockMoves = { meets: readonly Clock[]; drops: readonly Clock[]; starts: readonly Clock[] };
export type ClockEvent = { kind: string; from: State; to: State; details?: Record<string, unknown> };

const ALL = Object.keys(CLOCKS) as Clock[];
const MEETS: Record<string, readonly Clock[]> = {
  acknowledged: ['acknowledge'],
  looking_into: ['acknowledge', 'triage'],
  concluded: ['acknowledge', 'triage'],
  closed: ['acknowledge', 'triage', 'answer', 'decision'],
  answered: ['acknowledge', 'answer'],
  insurer_told: ['insurer'],
  insurer_notified: ['insurer'],
};

/** Which clocks of its kind an event meets, drops and starts. One that runs already goes on; opened again, the decision is due anew, or everything when nobody has spoken yet. */
export function movesOf(kind: Kind, event: ClockEvent, asked: string): ClockMoves {
  const { remedy, letter, clearance, kind: becomes } = event.details ?? {};
  const meets: Clock[] = [...(MEETS[event.kind] ?? [])];
  const opened = event.from === 'closed' && event.to !== 'closed';
  const starts: Clock[] = opened ? (event.to === 'received' ? clocksAtReception(kind, asked) : ['decision']) : [];
  const drops: Clock[] = event.from !== 'closed' && event.to === 'closed' ? [...ALL] : [];
  if (letter === 'decision') meets.push('decision', 'answer');
  if (clearance === 'insurer_consent' || (event.kind === 'remedy_done' && remedy === 'insurer_notice')) meets.push('insurer');
  if (remedy === 'revisit') {
    if (event.kind === 'remedy_agreed') starts.push('visit');
    if (event.kind === 'remedy_done') meets.push('visit');
    if (event.kind === 'remedy_refused') drops.push('visit');
  }
  const money = ['remedy_proposed', 'remedy_agreed'].includes(event.kind) && paysMoney(remedy as RemedyKind);
  if (money || event.kind === 'reserve_changed') starts.push('insurer');
  const after = (event.kind === 'became_callback' ? becomes : kind) as Kind;
  if (event.kind === 'became_callback') {
    drops.push('answer');
    starts.push(...clocksAtReception(after, asked).filter((clock) => clock !== 'acknowledge'));
  }
  return { meets, drops, starts: [...new Set(starts)].filter((clock) => CLOCKS_OF[after].includes(clock)) };
}
