// Who may commit the firm to a remedy: approval limits by role, lent limits, the second person above them.
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';
import { paysMoney, REMEDY_STATES, type RemedyKind, type RemedyState } from './words.ts';

/** Cents that somebody may commit to alone: 'none' has no limit row at all, null is without limit. */
export type Limit = number | null | 'none';

/** `loans` are roles lent to the person; days are ISO, both ends included. */
export type LimitFacts = {
  roles: readonly string[];
  limits: readonly { role: string; limitCents: number | null }[];
  loans: readonly { role: string; fromDay: string; untilDay: string }[];
};

/** The largest limit among a person's own roles and those lent for this day. */
export function limitOf({ roles, limits, loans }: LimitFacts, day: string): Limit {
  const held = new Set([...roles, ...loans.filter((loan) => loan.fromDay <= day && day <= loan.untilDay).map((loan) => loan.role)]);
  const own = limits.filter(({ role }) => held.has(role)).map(({ limitCents }) => limitCents);
  if (own.length === 0) return 'none';
  return own.includes(null) ? null : Math.max(...(own as number[]));
}

const within = (cents: number, limit: Limit): boolean => limit === null || (limit !== 'none' && cents <= limit);

/** Whether two names are the same, whatever their case, points and spaces. */
export const sameName = (a: string, b: string): boolean => plain(a) === plain(b);
const plain = (name: string): string => name.toLowerCase().replace(/[^a-z0-9]/g, '');

export type Proposal = { kind: RemedyKind; cents: number; payee: string; words?: string };
export type Decided = { state: 'proposed' | 'approved' };

/** The form of a proposal: what pays needs an amount and somebody to pay who is not the firm itself, what does not pays nothing. */
export function checkProposal({ kind, cents, payee, words }: Proposal, firmName: string): Outcome<RemedyKind> {
  if (paysMoney(kind)) {
    if (cents <= 0) return refuse('remedy-needs-amount', {}, 'cents');
    if (!payee.trim()) return refuse('remedy-needs-amount', {}, 'payee');
    if (sameName(payee, firmName)) return refuse(kind === 'independent_contractor' ? 'own-repair-payee' : 'payee-is-the-firm', {}, 'payee');
  } else if (cents !== 0) return refuse('remedy-pays-nothing', {}, 'cents');
  if (kind === 'declined' && !words?.trim()) return refuse('remedy-needs-reason', {}, 'words');
  return accept(kind);
}

/** What the other remedies of a callback commit the firm to, in cents: those agreed and those paid. `but`: id of the one that is asked about. */
export const committedCents = (remedies: readonly { id: string; state: RemedyState; cents: number }[], but: string): number =>
  remedies.filter(({ id, state }) => id !== but && (state === 'approved' || state === 'done')).reduce((sum, { cents }) => sum + cents, 0);

/** A limit holds for everything that one callback costs, so that no large payment passes in small parts. What pays nothing adds nothing. */
export const totalOf = (cents: number, committed: number): number => (cents === 0 ? 0 : cents + committed);

/**
 * Within the proposer's own limit it is agreed at once; above it, it waits for a second person whose limit is large enough. `committed` as by
 * `committedCents`.
 */
export function decideProposal(cents: number, committed: number, limit: Limit, onTheJob: boolean): Outcome<Decided> {
  if (limit === 'none') return refuse('no-approval-limit');
  return within(totalOf(cents, committed), limit)
    ? accept({ state: 'approved' }, approverWarnings(onTheJob))
    : accept({ state: 'proposed' }, [WAITS]);
}

export type ApprovalFacts = {
  remedy: { state: RemedyState; cents: number; proposedBy: string };
  approver: string;
  limit: Limit;
  onTheJob: boolean;
  /** Cents of the other remedies, as by `committedCents`. */
  committed: number;
};

/** The second person's yes or no. Whoever proposed it may take it back, never approve it. */
export function decideApproval(
  { remedy, approver, limit, onTheJob, committed }: ApprovalFacts,
  decision: 'approved' | 'refused',
): Outcome<{ state: 'approved' | 'refused' }> {
  const open = remedy.state === 'proposed' || (remedy.state === 'approved' && decision === 'refused');
  if (!open) return refuse('remedy-state', { state: REMEDY_STATES[remedy.state] });
  if (limit === 'none') return refuse('no-approval-limit');
  if (decision === 'refused') return accept({ state: 'refused' });
  if (approver === remedy.proposedBy) return refuse('second-person-needed');
  if (!within(totalOf(remedy.cents, committed), limit)) return refuse('above-approval-limit', { limitCents: limit });
  return accept({ state: 'approved' }, approverWarnings(onTheJob));
}

/** Somebody outside the firm who looked at it; `leads` counts lead inspectors who work here, `staff` their names and those of everybody else. */
export type OutsideFacts = { remedy: { state: RemedyState }; limit: Limit; leads: number; staff: readonly string[] };
const SHORTEST_WORDS = 10;

/** In a firm with one lead inspector a named person outside it may be the second; whoever writes it down has an approval limit. */
export function decideOutside(
  { remedy, limit, leads, staff }: OutsideFacts,
  { reviewer, words }: { reviewer: string; words: string },
): Outcome<{ state: 'approved' }> {
  if (remedy.state !== 'proposed') return refuse('remedy-state', { state: REMEDY_STATES[remedy.state] });
  if (limit === 'none') return refuse('no-approval-limit');
  if (leads > 1) return refuse('outside-reviewer-not-needed', { leads }, 'reviewer');
  if (plain(reviewer).length < 3 || staff.some((name) => sameName(name, reviewer))) return refuse('reviewer-not-outside', {}, 'reviewer');
  if (words.trim().length < SHORTEST_WORDS) return refuse('reviewer-needs-words', {}, 'words');
  return accept({ state: 'approved' });
}

/** A new amount or payee, while nothing was paid yet: it is decided anew. */
export function mayAmend(
  remedy: { kind: RemedyKind; state: RemedyState; cents: number; payee: string },
  to: { cents: number; payee: string },
): Outcome<null> {
  if (!paysMoney(remedy.kind)) return refuse('remedy-pays-nothing', {}, 'cents');
  if (remedy.state !== 'proposed' && remedy.state !== 'approved') return refuse('remedy-state', { state: REMEDY_STATES[remedy.state] });
  return remedy.cents === to.cents && remedy.payee === to.payee.trim() ? refuse('remedy-unchanged', {}, 'cents') : accept(null);
}

const WAITS: Warning = {
  code: 'waits-for-approval',
  text: 'With what was agreed before, this is above your approval limit: it waits for a second person with a larger one.',
};
const approverWarnings = (onTheJob: boolean): Warning[] =>
  onTheJob
    ? [
        {
          code: 'approver-on-the-job',
          text: 'The approver was on this job: the decision is sounder when somebody who was not there makes it.',
        },
      ]
    : [];
