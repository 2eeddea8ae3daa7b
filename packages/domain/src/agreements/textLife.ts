// The life of an agreement text: drafted, approved by a second person, in force from an instant, withdrawn; never edited once approved.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { Role } from '../people/roles.ts';
import type { Clause } from './text.ts';
import type { RuleBreak } from './textRules.ts';

export type TextState = 'draft' | 'approved' | 'withdrawn';

export type TextFacts = { number: number; state: TextState; authorId: string | null };

export const mustBeDraft = ({ state, number }: TextFacts): Outcome<null> =>
  state === 'draft' ? accept(null) : refuse('agreement-text-fixed', { number });

/** A name of the rows that a text goes against, with the state: 'US-CA cap'. */
export type BreakOfState = RuleBreak & { jurisdiction: string };

/** `lockedChanged`: clauses that an attorney locked and that the text says otherwise, by what they are called. */
export type ApproveFacts = {
  text: TextFacts;
  changesSomething: boolean;
  breaks: readonly BreakOfState[];
  lockedChanged: readonly string[];
  now: string;
};
/** `review`: the attorney who reviewed this text, and the day. */
export type ApproveCommand = {
  approverId: string;
  roles: readonly Role[];
  inForceFrom: string | null;
  reason: string | null;
  review: { attorney: string; on: string } | null;
};

export const SHORTEST_REASON = 10;

/**
 * By somebody else than the author, from now on or from a later instant (ISO text). A text that goes against a row of the rules is
 * approved only by an owner who says why; so is one that rewords what an attorney locked, with the new review.
 */
export function approveText(
  { text, changesSomething, breaks, lockedChanged, now }: ApproveFacts,
  c: ApproveCommand,
): Outcome<{ inForceFrom: string; despite: boolean }> {
  const open = mustBeDraft(text);
  if (!open.ok) return open;
  if (text.authorId === c.approverId) return refuse('agreement-text-second-person');
  if (!changesSomething) return refuse('text-changes-nothing');
  if (c.inForceFrom !== null && Date.parse(c.inForceFrom) < Date.parse(now)) return refuse('text-from-past', {}, 'inForceFrom');
  const locked = mayReword(lockedChanged, c);
  if (!locked.ok) return locked;
  const inForceFrom = c.inForceFrom ?? now;
  if (breaks.length === 0) return accept({ inForceFrom, despite: false });
  const rows = breaks.map(({ jurisdiction, rowKey }) => `${jurisdiction} ${rowKey}`);
  if (!c.roles.includes('owner')) return refuse('text-breaks-rules', { rows });
  if ((c.reason ?? '').trim().length < SHORTEST_REASON) return refuse('text-breaks-rules', { rows }, 'reason');
  return accept({ inForceFrom, despite: true });
}

function mayReword(changed: readonly string[], { roles, review }: Pick<ApproveCommand, 'roles' | 'review'>): Outcome<null> {
  if (changed.length === 0 && review === null) return accept(null);
  return roles.includes('owner') && review !== null ? accept(null) : refuse('clause-locked', { clauses: changed }, 'attorney');
}

export type Locking = { clauses: readonly Clause[]; locked: readonly string[] };

/** Clauses that one of the texts locks and that `clauses` no longer hold word for word; by what they are called, each once. */
export function lockedChanges(texts: readonly Locking[], clauses: readonly Clause[]): string[] {
  const same = (a: Clause, b: Clause | undefined): boolean =>
    b !== undefined && JSON.stringify([a.title, a.body, a.applies, a.client]) === JSON.stringify([b.title, b.body, b.applies, b.client]);
  const changed = texts.flatMap(({ clauses: theirs, locked }) =>
    theirs.filter(
      (one) =>
        locked.includes(one.key) &&
        !same(
          one,
          clauses.find(({ key }) => key === one.key),
        ),
    ),
  );
  return [...new Set(changed.map(({ title, key }) => title || key))];
}

/** Taken out of use, while another text of its kind is there to take its place. `othersInForce` counts those besides it. */
export function withdrawText(text: TextFacts & { inForce: boolean }, othersInForce: number): Outcome<null> {
  if (text.state !== 'approved') return refuse('agreement-text-not-approved', { number: text.number });
  return text.inForce && othersInForce === 0 ? refuse('last-agreement-text') : accept(null);
}
