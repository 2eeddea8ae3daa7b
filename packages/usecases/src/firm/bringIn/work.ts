// Works at the spreadsheets that wait: looks one through, brings it in, or takes out again what it brought. Any service may do it, one at a
// time by a lease of two minutes; what a killed one left is begun anew by the next, because everything is written in one transaction.
import { randomUUID } from 'node:crypto';
import type { Role } from '@backsight/domain/people/roles';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Database } from '@backsight/store/database';
import {
  dropOldFiles,
  findFile,
  noteProgress,
  saveProblems,
  setBringIn,
  stillMine,
  takeWork,
  workWaits,
  type BringInRow,
} from '@backsight/store/firm/bringIns';
import { findFrame, type Frame } from '@backsight/store/firm/records';
import { takeJobNumbers } from '@backsight/store/firm/saveRecords';
import { dependsOn, takeOut } from '@backsight/store/firm/takeOut';
import { findPerson } from '@backsight/store/people';
import type { Act, Actor, RunnerParts, Runner, Work } from '../../run.ts';
import { saidDepends } from '../steps/bringIn/depends.ts';
import { prepare } from '../steps/bringIn/prepare.ts';
import type { Context, Prepared, Tell } from '../steps/bringIn/prepared.ts';
import { readSheet, type Sheet } from '../steps/bringIn/sheet.ts';
import { countsKept, mappedOf } from '../steps/bringIn/stored.ts';
import { write } from '../steps/bringIn/write.ts';
import { localDay } from '../steps/localDay.ts';

export type Services = Pick<RunnerParts, 'database' | 'clock' | 'newId'> & { runner: Runner };
type Mine = { row: BringInRow; by: string; tell: Tell; roles: Role[] };

const SECONDS = 900;

/** Works until nothing waits. Answers the kinds of what was written or taken out, so that whoever keeps sums of it makes them anew. */
export async function workAtBringIns(services: Services): Promise<string[]> {
  const changed: string[] = [];
  while (await workWaits(services.database.read, services.clock())) {
    const by = randomUUID();
    const row = await services.database.transaction((tx) => takeWork(tx, by, services.clock()));
    if (!row) break;
    if (await workAt(services, row, by)) changed.push(row.kind);
  }
  return changed;
}

/** Once a week has gone by, files of what ended leave. */
export const dropFilesOfBringIns = ({ database, clock }: { database: Database; clock: () => Date }): Promise<number> =>
  database.transaction((tx) => dropOldFiles(tx, clock()));

async function workAt(services: Services, row: BringInRow, by: string): Promise<boolean> {
  const { database, clock, runner } = services;
  const person = await findPerson(database.read, row.askedById);
  const roles = person?.roles ?? [];
  const actor: Actor = { kind: 'person', id: row.askedById, name: row.askedBy, roles };
  const tell: Tell = async (phase, done, total) => {
    if (!(await database.transaction((tx) => noteProgress(tx, row.id, { by, now: clock(), phase, done, total })))) throw new Taken();
  };
  const mine = { row, by, tell, roles };
  try {
    const outcome = await actOn(services, mine, actor);
    if (!outcome.ok)
      await runner.run(brokeOff, { mine, why: outcome.code === 'bring-in-depended-on' ? String(outcome.about['what']) : null }, { actor });
    return outcome.ok && row.state !== 'checking';
  } catch (error) {
    if (error instanceof Taken) return false;
    await runner.run(brokeOff, { mine, why: null }, { actor }).catch(() => {});
    throw error;
  }
}

/** Somebody else works at it by now. */
class Taken extends Error {}

async function actOn(services: Services, mine: Mine, actor: Actor): Promise<Outcome<unknown>> {
  const { database, runner, clock, newId } = services;
  const { row } = mine;
  if (row.state === 'undoing') return runner.run(takeOutAgain, mine, { actor });
  const now = clock();
  const frame = await findFrame(database.read, now);
  const bytes = await findFile(database.read, row.id);
  const read = bytes && readSheet(bytes);
  if (!frame || !read || 'says' in read) return refuse('not-found', { thing: 'spreadsheet' });
  const { today } = await localDay(database.read, now);
  const context: Omit<Context, 'reader'> = { mapped: mappedOf(row), frame, today, roles: mine.roles, newId, tell: mine.tell };
  if (row.state === 'checking') {
    const prepared = await prepare({ ...context, reader: database.read }, read.sheet);
    return runner.run(keepCheck, { mine, prepared }, { actor });
  }
  if (row.kind === 'jobs' && (frame.scheduleId === null || frame.rulesId === null)) return refuse('not-set-up', { what: 'fee schedule' });
  const firstNumber = row.kind === 'jobs' ? await database.transaction((tx) => takeJobNumbers(tx, countsKept(row)?.fresh ?? 0)) : 0;
  return runner.run(writeAll, { mine, context, sheet: read.sheet, frame, firstNumber }, { actor });
}

type Checked = { mine: Mine; prepared: Prepared };
const keepCheck: Act<Checked, null> = {
  operation: 'firm.bring-in-check',
  seconds: SECONDS,
  run: async (work, { mine: { row, by }, prepared }) => {
    if (!(await stillMine(work.tx, row.id, by))) return refuse('changed-meanwhile');
    await saveProblems(work.tx, row.id, prepared.problems);
    await setBringIn(work.tx, row.id, { state: 'checked', counts: prepared.counts });
    await work.did('spreadsheet', row.id, { kind: row.kind, ...prepared.counts });
    return accept(null);
  },
};

type WriteInput = { mine: Mine; context: Omit<Context, 'reader'>; sheet: Sheet; frame: Frame; firstNumber: number };
const writeAll: Act<WriteInput, null> = { operation: 'firm.bring-in-write', seconds: SECONDS, run: writeOnce };

/** Everything is held against what is on file once more; where it comes to something else than somebody looked at, nothing is written. */
async function writeOnce(work: Work, { mine, context, sheet, frame, firstNumber }: WriteInput): Promise<Outcome<null>> {
  const { row, by, tell } = mine;
  const prepared = await prepare({ ...context, reader: work.tx }, sheet);
  const before = countsKept(row)?.fresh ?? 0;
  if (prepared.counts.fresh !== before) return refuse('bring-in-changed', { fresh: prepared.counts.fresh, before });
  await write(work.tx, prepared, { bringInId: row.id, now: work.now, by: row.askedById, frame, newId: work.newId, firstNumber, tell });
  if (!(await stillMine(work.tx, row.id, by))) return refuse('changed-meanwhile');
  await saveProblems(work.tx, row.id, prepared.problems);
  await setBringIn(work.tx, row.id, { state: 'done', counts: prepared.counts, broughtAt: work.now });
  await work.did('spreadsheet', row.id, { kind: row.kind, ...prepared.counts });
  return accept(null);
}

const takeOutAgain: Act<Mine, null> = {
  operation: 'firm.bring-in-take-out',
  seconds: SECONDS,
  run: async (work, { row, by, tell }) => {
    const depends = await dependsOn(work.tx, row.id);
    if (depends.length > 0) return refuse('bring-in-depended-on', { what: saidDepends(depends) });
    await takeOut(work.tx, row.id, (done, steps) => tell('taking out', done, steps));
    if (!(await stillMine(work.tx, row.id, by))) return refuse('changed-meanwhile');
    await setBringIn(work.tx, row.id, { state: 'undone', endedAt: work.now });
    await work.did('spreadsheet', row.id, { kind: row.kind });
    return accept(null);
  },
};

const BACK = { checking: 'to_map', bringing: 'checked', undoing: 'done' } as const;
const AGAIN = 'It did not come through, and nothing was changed. Try it again; if it happens again, ask whoever runs the service.';
const CHANGED = 'What is on file has changed since this file was looked through, so nothing was brought in. Look it through again.';

const brokeOff: Act<{ mine: Mine; why: string | null }, null> = {
  operation: 'firm.bring-in-broke-off',
  run: async (work, { mine: { row, by }, why }) => {
    if (!(await stillMine(work.tx, row.id, by))) return refuse('changed-meanwhile');
    const state = BACK[row.state as keyof typeof BACK];
    const note =
      why === null ? (row.state === 'bringing' ? CHANGED : AGAIN) : `Something depends on it by now: ${why}. Nothing was taken out.`;
    await setBringIn(work.tx, row.id, { state, note });
    await work.did('spreadsheet', row.id, { kind: row.kind, state });
    return accept(null);
  },
};
