// Starts the clocks of a callback, each under the term that was in force at its reception.
import { clocksAtReception, dueOf, termAt, type Clock, type DatedTerm } from '@backsight/domain/callbacks/clocks';
import type { Kind } from '@backsight/domain/callbacks/words';
import type { BusinessCalendar } from '@backsight/domain/shared/calendar';
import type { Reader } from '@backsight/store/database';
import { listTerms, runningClocks, saveClocks, type NewClock } from '@backsight/store/callbacks/clocks';
import type { Work } from '../../run.ts';

export const datedTerms = async (reader: Reader): Promise<DatedTerm[]> =>
  (await listTerms(reader)).map((term) => ({ ...term, fromAt: term.fromAt.toISOString() }));

type Start = { callbackId: string; kind: Kind; receivedAt: Date; clocks: readonly Clock[]; startedAt: Date; calendar: BusinessCalendar };

/** Clocks that run already go on as they are. */
export async function startClocks(work: Work, { callbackId, kind, receivedAt, clocks, startedAt, calendar }: Start): Promise<NewClock[]> {
  const terms = await datedTerms(work.tx);
  const running = (await runningClocks(work.tx, callbackId)).map(({ clock }) => clock);
  const rows = clocks
    .filter((clock) => !running.includes(clock))
    .map((clock) => {
      const term = termAt(terms, kind, clock, receivedAt.toISOString());
      const dueAt = new Date(dueOf(term, startedAt.toISOString(), calendar));
      return { id: work.newId(), callbackId, clock, ...{ amount: term.amount, unit: term.unit, source: term.source }, startedAt, dueAt };
    });
  if (rows.length > 0) await saveClocks(work.tx, rows);
  return rows;
}

/** What starts with the reception. */
export const startAtReception = (
  work: Work,
  row: { id: string; kind: Kind; receivedAt: Date; remedySought: string },
  calendar: BusinessCalendar,
): Promise<NewClock[]> =>
  startClocks(work, {
    ...{ callbackId: row.id, kind: row.kind, receivedAt: row.receivedAt, startedAt: row.receivedAt, calendar },
    clocks: clocksAtReception(row.kind, row.remedySought),
  });
