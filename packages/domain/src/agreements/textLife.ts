// The life of an agreement text: drafted, approved by a second person, in force from an instant, withdrawn; never edited once approved.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { Role } from '../people/roles.ts';
import type { RuleBreak } from './textRules.ts';

export type TextState = 'draft' | 'approved' | 'withdrawn';

export type TextFacts = { number: number; state: TextState; authorId: string | null };

export const mustBeDraft = ({ state, number }: TextFacts): Outcome<null> =>
  state === 'draft' ? accept(null) : refuse('agreement-text-fixed', { number });

/** A name of the rows that a text goes against, with the state: 'US-CA cap'. */
export type BreakOfState = RuleBreak & { jurisdiction: string };

export type ApproveFacts = { text: TextFacts; changesSomething: boolean; breaks: readonly BreakOfState[]; now: string };
export type ApproveCommand = { approverId: string; roles: readonly Role[]; inForceFrom: string | null; reason: string | null };

export const SHORTEST_REASON = 10;

/**
 * By somebody else than the author, from now on or from a later instant (ISO text). A text that goes against a row of the rules is
 * approved only by an owner who says why.
 */
export function approveText(
  { text, changesSomething, breaks, now }: ApproveFacts,
  c: ApproveCommand,
): Outcome<{ inForceFrom: string; despite: boolean }> {
  const open = mustBeDraft(text);
  if (!open.ok) return open;
  if (text.authorId === c.approverId) return refuse('agreement-text-second-person');
  if (!changesSomething) return refuse('text-changes-nothing');
  if (c.inForceFrom !== null && Date.parse(c.inForceFrom) < Date.parse(now)) return refuse('text-from-past', {}, 'inForceFrom');
  const inForceFrom = c.inForceFrom ?? now;
  if (breaks.length === 0) return accept({ inForceFrom, despite: false });
  const rows = breaks.map(({ jurisdiction, rowKey }) => `${jurisdiction} ${rowKey}`);
  if (!c.roles.includes('owner')) return refuse('text-breaks-rules', { rows });
  if ((c.reason ?? '').trim().length < SHORTEST_REASON) return refuse('text-breaks-rules', { rows }, 'reason');
  return accept({ inForceFrom, despite: true });
}

/** Taken out of use, while another text of its kind is there to take its place. `othersInForce` counts those besides it. */
export function withdrawText(text: TextFacts & { inForce: boolean }, othersInForce: number): Outcome<null> {
  if (text.state !== 'approved') return refuse('agreement-text-not-approved', { number: text.number });
  return text.inForce && othersInForce === 0 ? refuse('last-agreement-text') : accept(null);
}
