// How long the clocks of callbacks run: read with their history, and set by the owner for what comes in from now on.
import {
  CLOCKS_OF,
  customaryTerm,
  FIRM_TIMES,
  mayKeepTerm,
  termAt,
  type Clock,
  type FirmTime,
  type Term,
} from '@backsight/domain/callbacks/clocks';
import { KINDS, type Kind } from '@backsight/domain/callbacks/words';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { listTerms, saveTerm } from '@backsight/store/callbacks/clocks';
import type { Reader } from '@backsight/store/database';
import type { Act } from '../run.ts';
import { actorId } from './steps/callback.ts';
import { datedTerms } from './steps/runClocks.ts';

const PLACES: (readonly [Kind | '', Clock | FirmTime])[] = [
  ...(Object.keys(KINDS) as Kind[]).flatMap((kind) => CLOCKS_OF[kind].map((clock) => [kind, clock] as const)),
  ...(Object.keys(FIRM_TIMES) as FirmTime[]).map((clock) => ['', clock] as const),
];

const bare = ({ amount, unit, source }: Term): Term => ({ amount, unit, source });

/** Each clock of each kind with what counts now, the customary term, and everything that was set, the newest first. */
export async function readTerms(reader: Reader, now: Date) {
  const [terms, rows] = [await datedTerms(reader), await listTerms(reader)];
  return PLACES.map(([kind, clock]) => ({
    kind,
    clock,
    now: bare(termAt(terms, kind, clock, now.toISOString())),
    customary: customaryTerm(kind, clock),
    set: rows
      .filter((row) => row.kind === kind && row.clock === clock)
      .map(({ id, amount, unit, source, fromAt, by }) => ({ id, amount, unit, source, fromAt: fromAt.toISOString(), by })),
  }));
}

export type TermInput = Term & { id: string; kind: Kind | ''; clock: Clock | FirmTime };

/** Counts for callbacks that are received from now on. Refusals: clock-not-of-kind, clock-amount, clock-unit. */
export const setTerm: Act<TermInput, { id: string }> = {
  operation: 'callbacks.set-clock',
  run: async (work, term): Promise<Outcome<{ id: string }>> => {
    const may = mayKeepTerm(term.kind, term.clock, term);
    if (!may.ok) return may;
    await saveTerm(work.tx, { ...term, fromAt: work.now, actorId: actorId(work.actor)! });
    const { kind, clock, amount, unit } = term;
    await work.did('clock-policy', term.id, { kind, clock, amount, unit });
    return accept({ id: term.id });
  },
};
