// An agreement text: clauses with a rule each, from which the words for one job are put together.
import type { Applicability, Truth } from '../shared/applicability.ts';
import { evaluate, type RuleContext } from '../shared/evaluate.ts';

export const TEXT_KINDS = {
  inspection: 'Inspection',
  reinspection: 'Re-inspection of listed items',
  settlement_release: 'Settlement release',
} as const;
export type TextKind = keyof typeof TEXT_KINDS;

/** For which client a clause is meant: one who has the house looked at before selling it owns it. */
export const CLAUSE_CLIENTS = {
  anybody: 'every client',
  owner: 'a client who owns the house',
  not_owner: 'a client who does not own the house',
} as const;
export type ClauseClient = keyof typeof CLAUSE_CLIENTS;

/** `title` '' = words without a heading. `body` is Markdown with {{fields}}. */
export type Clause = { key: string; title: string; body: string; applies: Applicability; client: ClauseClient };

/** The most that the firm pays: nothing said, a multiple of the fee in tenths (15 = 1.5 times), or an amount in cents. */
export type Cap = { kind: 'none' } | { kind: 'factor'; tenths: number } | { kind: 'amount'; cents: number };

/** What the text limits. `claimMonths`: a time to claim that the parties agree on; null = what the law gives. */
export type TextLimits = { cap: Cap; claimMonths: number | null };

export const NO_LIMITS: TextLimits = { cap: { kind: 'none' }, claimMonths: null };

export type TextContent = { title: string; consentText: string; clauses: readonly Clause[]; limits: TextLimits };

export type ClauseContext = RuleContext & { clientIsOwner: boolean };

/** Whether a clause belongs into the agreement of a job; 'unknown' means that a fact is missing, and then it is taken in. */
export const clauseApplies = ({ client, applies }: Clause, context: ClauseContext): Truth =>
  client === 'anybody' || (client === 'owner') === context.clientIsOwner ? evaluate(applies, context) : 'no';

export const clausesFor = (clauses: readonly Clause[], context: ClauseContext): Clause[] =>
  clauses.filter((clause) => clauseApplies(clause, context) !== 'no');

/** The clauses one after the other, those with a title as numbered sections. */
export function templateOf(clauses: readonly Clause[]): string {
  let number = 0;
  return clauses
    .map(({ title, body }) => (title === '' ? body.trim() : `## ${(number += 1)}. ${title}\n\n${body.trim()}`))
    .filter((part) => part !== '')
    .join('\n\n');
}

/** The cap in cents for a fee; null when the text has none. Rounded up to the cent: a cap is never below what was agreed. */
export function capCents(cap: Cap, feeCents: number): number | null {
  if (cap.kind === 'none') return null;
  return cap.kind === 'amount' ? cap.cents : Math.ceil((feeCents * cap.tenths) / 10);
}
