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

/** Whether two names are the same firm, whatever their case, points and spaces. */
const sameName = (a: string, b: string): boolean => plain(a) === plain(b);
const plain = (name: string): string => name.toLowerCase().replace(/[^a-z0-9]/g, '');

export type Proposal = { kind: RemedyKind; cents: number; payee: string; words?: string };
export type Decided = { state: 'proposed' | 'approved' };

/** The form of a proposal: what pays needs an amount and somebody to pay who is not the firm itself, what does not pays nothing. */
export function checkProposal({ kind, cents, payee, words }: Proposal, firmName: string): Outcome<RemedyKind> {
  if (paysMoney(kind)) {
    if (cents <= 0) return refuse('remedy-needs-amount', {}, 'cents');
    if (!payee.trim()) return refuse('remedy-needs-amount', {}, 'payee');
    if (kind === 'independent_contractor' && sameName(payee, firmName)) return refuse('own-repair-payee', {}, 'payee');
  } else if (cents !== 0) return refuse('remedy-pays-nothing', {}, 'cents');
  if (kind === 'declined' && !words?.trim()) return refuse('remedy-needs-reason', {}, 'words');
  return accept(kind);
}

/** Within the proposer's own limit it is agreed at once; above it, it waits for a second person whose limit is large enough. */
export function decideProposal(cents: number, limit: Limit, onTheJob: boolean): Outcome<Decided> {
  if (limit === 'none') return refuse('no-approval-limit');
  return within(cents, limit) ? accept({ state: 'approved' }, approverWarnings(onTheJob)) : accept({ state: 'proposed' }, [WAITS]);
}

export type ApprovalFacts = {
  remedy: { state: RemedyState; cents: number; proposedBy: string };
  approver: string;
  limit: Limit;
  onTheJob: boolean;
};

/** The second person's yes or no. Whoever proposed it may take it back, never approve it. */
export function decideApproval(
  { remedy, approver, limit, onTheJob }: ApprovalFacts,
  decision: 'approved' | 'refused',
): Outcome<{ state: 'approved' | 'refused' }> {
  const open = remedy.state === 'proposed' || (remedy.state === 'approved' && decision === 'refused');
  if (!open) return refuse('remedy-state', { state: REMEDY_STATES[remedy.state] });
  if (limit === 'none') return refuse('no-approval-limit');
  if (decision === 'refused') return accept({ state: 'refused' });
  if (approver === remedy.proposedBy) return refuse('second-person-needed');
  if (!within(remedy.cents, limit)) return refuse('above-approval-limit', { limitCents: limit });
  return accept({ state: 'approved' }, approverWarnings(onTheJob));
}

const WAITS: Warning = {
  code: 'waits-for-approval',
  text: 'This is above your approval limit: it waits for a second person with a larger one.',
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
