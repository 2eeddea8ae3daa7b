// Rules about who goes with whom.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export const PAIRING_KINDS = { never_together: 'never together', must_together: 'only together' } as const;
export type PairingKind = keyof typeof PAIRING_KINDS;

export type PairingFact = { kind: string; aId: string; bId: string; endedOn: string | null };

/** The two of a rule in the one order in which they are stored. */
export const ordered = (aId: string, bId: string): [string, string] => (aId < bId ? [aId, bId] : [bId, aId]);

/** Two different people, not under the same or the opposite rule already. */
export function mayPairUnder(rules: readonly PairingFact[], kind: PairingKind, aId: string, bId: string): Outcome<null> {
  if (aId === bId) return refuse('same-person', {}, 'bId');
  const [first, second] = ordered(aId, bId);
  const open = rules.filter((rule) => rule.aId === first && rule.bId === second && rule.endedOn === null);
  if (open.some((rule) => rule.kind === kind)) return refuse('pairing-known', {}, 'bId');
  return open.length > 0 ? refuse('pairing-contradicts', {}, 'kind') : accept(null);
}
