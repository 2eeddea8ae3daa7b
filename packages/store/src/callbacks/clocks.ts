// Clocks of callbacks: how long they run by the firm's dated records, those of each callback, and the pauses in which they stand still.
import type { Clock, DatedTerm, Unit } from '@backsight/domain/callbacks/clocks';
import type { Reader, Tx } from '../database.ts';
import { RUNS, VISIT_BEGAN } from '../runningClock.ts';

export type TermRow = Omit<DatedTerm, 'fromAt'> & { id: string; fromAt: Date; by: string };

/** Every term that the firm set, the newest first. */
export const listTerms = (reader: Reader): Promise<TermRow[]> =>
  reader.rows<TermRow>(
    `SELECT y.id::text AS id, y.kind, y.clock, y.amount, y.unit, y.source, y.from_at AS "fromAt", p.name AS by FROM clock_policy y JOIN person p ON p.id = y.actor_id ORDER BY y.from_at DESC, y.id DESC`,
  );

export type NewTerm = Omit<TermRow, 'by'> & { actorId: string };
export const saveTerm = (tx: Tx, term: NewTerm): Promise<void> => tx.db.clockPolicy.create({ data: term });

export type NewClock = {
  id: string;
  callbackId: string;
  clock: Clock;
  amount: number;
  unit: Unit;
  source: string;
  startedAt: Date;
  dueAt: Date;
};
/** Constraint: callback_clock_runs_once. */
export const saveClocks = async (tx: Tx, clocks: readonly NewClock[]): Promise<void> =>
  tx.db.callbackClock.createMany({ data: [...clocks] });

export type RunningRow = { id: string; clock: Clock; startedAt: Date; dueAt: Date };
export const runningClocks = (reader: Reader, callbackId: string): Promise<RunningRow[]> =>
  reader.rows<RunningRow>(
    `SELECT k.id::text AS id, k.clock, k.started_at AS "startedAt", k.due_at AS "dueAt" FROM callback_clock k WHERE k.callback_id = $1::uuid AND k.met_at IS NULL AND k.dropped_at IS NULL ORDER BY k.due_at`,
    [callbackId],
  );

const runs = (callbackId: string, clocks: readonly Clock[]) => ({ callbackId, clock: { in: [...clocks] }, metAt: null, droppedAt: null });
export const meetClocks = async (tx: Tx, callbackId: string, clocks: readonly Clock[], at: Date, by: string | null): Promise<void> =>
  void (await tx.db.callbackClock.updateMany({ where: runs(callbackId, clocks), data: { metAt: at, metBy: by } }));
export const dropClocks = async (tx: Tx, callbackId: string, clocks: readonly Clock[], at: Date): Promise<void> =>
  void (await tx.db.callbackClock.updateMany({ where: runs(callbackId, clocks), data: { droppedAt: at } }));
export const moveDue = (tx: Tx, id: string, dueAt: Date): Promise<void> => tx.db.callbackClock.update({ where: { id }, data: { dueAt } });

/** The clock of callback `c` that is due next. Notice to the insurer is not everybody's matter. */
export const NEXT_CLOCK = `SELECT k.clock, k.due_at FROM callback_clock k WHERE k.callback_id = c.id AND k.clock <> 'insurer' AND ${RUNS} ORDER BY k.due_at, k.clock LIMIT 1`;

type Next = { clock: Exclude<Clock, 'insurer'> | null; dueAt: Date | null };
export const nextClock = async (reader: Reader, callbackId: string): Promise<Next> =>
  (
    await reader.rows<Next>(
      `SELECT n.clock, n.due_at AS "dueAt" FROM callback c LEFT JOIN LATERAL (${NEXT_CLOCK}) n ON true WHERE c.id = $1::uuid`,
      [callbackId],
    )
  )[0] ?? { clock: null, dueAt: null };

export type ClockRow = NewClock & { metAt: Date | null; metBy: string | null; droppedAt: Date | null };
/** All of a callback in the order in which they started, those that ended too. */
export const clocksOf = (reader: Reader, callbackId: string): Promise<ClockRow[]> =>
  reader.rows<ClockRow>(
    `SELECT k.id::text AS id, k.callback_id::text AS "callbackId", k.clock, k.amount, k.unit, k.source, k.started_at AS "startedAt", k.due_at AS "dueAt", coalesce(k.met_at, ${VISIT_BEGAN}) AS "metAt",
       p.name AS "metBy", k.dropped_at AS "droppedAt" FROM callback_clock k LEFT JOIN person p ON p.id = k.met_by WHERE k.callback_id = $1::uuid ORDER BY k.started_at, k.due_at`,
    [callbackId],
  );

export type PauseRow = { id: string; fromAt: Date; from: string; untilAt: Date | null; until: string | null; words: string | null };
/** Of a callback, the oldest first; the one that is open has no end. */
export const pausesOf = (reader: Reader, callbackId: string): Promise<PauseRow[]> =>
  reader.rows<PauseRow>(
    `SELECT s.id::text AS id, s.from_at AS "fromAt", f.name AS from, s.until_at AS "untilAt", u.name AS until, t.body AS words
     FROM callback_pause s JOIN kept_text t ON t.id = s.text_id LEFT JOIN person f ON f.id = s.from_by LEFT JOIN person u ON u.id = s.until_by WHERE s.callback_id = $1::uuid ORDER BY s.from_at`,
    [callbackId],
  );

/** Constraint: pause_open_already. */
export const savePause = (tx: Tx, pause: { id: string; callbackId: string; textId: string; fromAt: Date; fromBy: string }): Promise<void> =>
  tx.db.callbackPause.create({ data: pause });
/** Ends the open pause of a callback, if there is one. */
export const endPause = async (tx: Tx, callbackId: string, at: Date, by: string): Promise<void> =>
  void (await tx.db.callbackPause.updateMany({ where: { callbackId, untilAt: null }, data: { untilAt: at, untilBy: by } }));
