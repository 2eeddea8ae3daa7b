// Offers to settle, the release that ends a claim, the insurer's notice, and what a court decided.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { REMEDY_STATES, paysMoney, type RemedyKind, type RemedyState } from './words.ts';

/**
 * The one gate before an offer, payment, refund or settlement release leaves: the insurer's consent or the owner's reason is on file.
 * The database holds payments, offers and releases to it besides.
 */
export const mayLeave = (clearances: readonly unknown[]): Outcome<null> =>
  clearances.length === 0 ? refuse('payment-needs-clearance') : accept(null);

/** Stands in every letter with an offer. That offers to settle prove no fault: Wis. Stat. 904.08, from memory. */
export const MADE_TO_SETTLE =
  'This offer is made to settle what is in dispute. It is no admission that anything was done wrong or that anything is owed.';

export const OFFER_ENDS = { accepted: 'accepted', declined: 'declined by the other side', withdrawn: 'withdrawn by the firm' } as const;
export type OfferEnd = keyof typeof OFFER_ENDS;
export type OfferState = 'open' | 'expired' | OfferEnd;

/** An offer stands through its last day. Days are ISO. */
export const offerState = ({ validUntil, end }: { validUntil: string; end: OfferEnd | null }, today: string): OfferState =>
  end ?? (validUntil < today ? 'expired' : 'open');

/** An approved remedy that pays is offered until a day that has not passed, one offer at a time. */
export function mayOffer(
  remedy: { kind: RemedyKind; state: RemedyState },
  offers: readonly OfferState[],
  { validUntil, today }: { validUntil: string; today: string },
): Outcome<null> {
  if (!paysMoney(remedy.kind)) return refuse('remedy-pays-nothing');
  if (remedy.state === 'done') return refuse('remedy-state', { state: REMEDY_STATES.done });
  if (remedy.state !== 'approved') return refuse('remedy-not-approved');
  if (validUntil < today) return refuse('offer-day-past', { day: validUntil }, 'validUntil');
  return offers.includes('open') ? refuse('offer-stands') : accept(null);
}

/** An open offer ends once; accepting needs that it has not expired. */
export function mayEndOffer(state: OfferState, end: OfferEnd): Outcome<null> {
  if (state === 'open' || (state === 'expired' && end !== 'accepted')) return accept(null);
  return refuse('offer-ended', { state: state === 'expired' ? 'expired' : OFFER_ENDS[state] });
}

/** `release`: 'none' issued, 'open' waits for signatures, 'signed' and sealed. */
export const mayPayAfterRelease = (waits: boolean, release: 'none' | 'open' | 'signed'): Outcome<null> =>
  waits && release !== 'signed' ? refuse('payment-waits-for-release') : accept(null);

export const COURT_ENDS = { judgment: 'judgment', settlement: 'settled before judgment', dismissed: 'dismissed' } as const;
export type CourtEnd = keyof typeof COURT_ENDS;

/** A case of a day that has come, whose answer is not due before that. */
export function checkCase(at: { filedOn: string; answerDueOn: string | null }, today: string): Outcome<null> {
  if (at.filedOn > today) return refuse('in-the-future', { day: at.filedOn }, 'filedOn');
  return at.answerDueOn !== null && at.answerDueOn < at.filedOn
    ? refuse('deadline-before-service', { deadlineOn: at.answerDueOn, servedOn: at.filedOn }, 'answerDueOn')
    : accept(null);
}

/** What a case ended with, in cents. A case that was dismissed leaves nothing owed; nobody lowers it below what was paid on it. */
export function checkOutcome(
  end: { kind: CourtEnd; decidedOn: string; owedCents: number; costsCents: number },
  at: { filedOn: string; today: string; paidOwedCents: number; paidCostsCents: number },
): Outcome<null> {
  if (end.decidedOn > at.today) return refuse('in-the-future', { day: end.decidedOn }, 'decidedOn');
  if (end.decidedOn < at.filedOn) return refuse('court-before-filing', { filedOn: at.filedOn }, 'decidedOn');
  if (end.kind === 'dismissed' && end.owedCents > 0) return refuse('court-dismissed-owes-nothing', {}, 'owedCents');
  if (end.owedCents < at.paidOwedCents) return refuse('court-paid-already', { cents: at.paidOwedCents }, 'owedCents');
  return end.costsCents < at.paidCostsCents ? refuse('court-paid-already', { cents: at.paidCostsCents }, 'costsCents') : accept(null);
}

/** Never more is paid than the court, or the settlement before it, says. */
export const mayPayCourt = (leftCents: number, cents: number): Outcome<null> =>
  cents > leftCents ? refuse('court-above-owed', { leftCents }, 'cents') : accept(null);

type Closing = { outcome: { owedCents: number; costsCents: number } | null; paidOwedCents: number; paidCostsCents: number };

/** A callback is closed once every case has an outcome and is paid. */
export function mayCloseCases(cases: readonly Closing[]): Outcome<null> {
  const left = (one: Closing): number =>
    one.outcome === null ? 0 : one.outcome.owedCents + one.outcome.costsCents - one.paidOwedCents - one.paidCostsCents;
  const leftCents = cases.reduce((sum, one) => sum + left(one), 0);
  return leftCents > 0 || cases.some(({ outcome }) => outcome === null) ? refuse('court-open', { leftCents }) : accept(null);
}

/** What the insurer was told, on a day between the intake and today. */
export function checkNotice(notice: { notifiedOn: string }, days: { receivedOn: string; today: string }): Outcome<null> {
  if (notice.notifiedOn > days.today) return refuse('in-the-future', { day: notice.notifiedOn }, 'notifiedOn');
  return notice.notifiedOn < days.receivedOn ? refuse('before-it-came-in', { receivedOn: days.receivedOn }, 'notifiedOn') : accept(null);
}

/** A day of payment: not ahead, and not before the callback came in. */
export function checkPaidOn(paidOn: string, days: { receivedOn: string; today: string }): Outcome<null> {
  if (paidOn > days.today) return refuse('in-the-future', { day: paidOn }, 'paidOn');
  return paidOn < days.receivedOn ? refuse('before-it-came-in', { receivedOn: days.receivedOn }, 'paidOn') : accept(null);
}
