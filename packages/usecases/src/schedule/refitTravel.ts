// Fits band speeds and factors between towns to the recorded drives: on demand, and by the clock once a month.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { ENOUGH_IN_BAND, fitTravel, type Drive } from '@backsight/scheduling/calibrate';
import { addDays } from '@backsight/scheduling/time';
import type { Database } from '@backsight/store/database';
import { listTowns } from '@backsight/store/jobs/catalog';
import { recordedDrives, type DriveRow } from '@backsight/store/schedule/drives';
import { findFit, findTravelSetup, listFits, lockTravelSetup, saveFit, saveTravelSetup } from '@backsight/store/schedule/travel';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import type { Act, Runner, Work } from '../run.ts';
import { startOfDay } from './steps/loadWorld.ts';

/** Drives older than this say little about the roads of today. */
const DAYS_BACK = 365;

const driveOf = (row: DriveRow): Drive => ({
  from: { lat: row.fromLat, lon: row.fromLon },
  to: { lat: row.toLat, lon: row.toLon },
  minutes: row.minutes,
});

type Refitted = { id: string; used: number };
export const refitTravel: Act<{ id: string }, Refitted> = { operation: 'schedule.refit-travel', run: refit };

/** Keeps the fit with its day and counts. It is used at once only when the firm said that new ones are taken over. */
async function refit(work: Work, { id }: { id: string }): Promise<Outcome<Refitted>> {
  await lockTravelSetup(work.tx);
  const { zone, today } = await localDay(work.tx, work.now);
  const fromDay = addDays(today, -DAYS_BACK);
  const rows = await recordedDrives(work.tx, startOfDay(fromDay, zone), work.now);
  const fit = fitTravel(rows.map(driveOf), await listTowns(work.tx));
  await saveFit(work.tx, { id, fromDay, untilDay: today, used: fit.used, body: fit, recordedAt: work.now });
  const takeOver = (await findTravelSetup(work.tx)).follow && fit.used >= ENOUGH_IN_BAND;
  if (takeOver) await saveTravelSetup(work.tx, { fitId: id });
  await work.did('travel-fit', id, { drives: fit.used, leftOut: fit.leftOut, takenOver: takeOver });
  return accept({ id, used: fit.used });
}

export type UseInput = { version: number; fitId: string | null; follow: boolean };

/** Which fit is used (null: the standard speeds), and whether the monthly ones are taken over by themselves. */
export const useFit: Act<UseInput, { version: number }> = { operation: 'schedule.use-travel-fit', run: use };

async function use(work: Work, { version, fitId, follow }: UseInput): Promise<Outcome<{ version: number }>> {
  await lockTravelSetup(work.tx);
  const setup = await findTravelSetup(work.tx);
  if (setup.version !== version) return refuse('changed-meanwhile');
  if (fitId !== null && !(await findFit(work.tx, fitId))) return refuse('not-found', { thing: 'fit' });
  await saveTravelSetup(work.tx, { fitId, follow });
  await work.did('firm', FIRM_THING, { travelFit: fitId, travelFitBefore: setup.fitId, followTravelFits: follow });
  return accept({ version: version + 1 });
}

/** Fits once in each local month, when there are enough drives. Answers whether it did. */
export async function refitMonthly(parts: {
  database: Database;
  runner: Runner;
  clock: () => Date;
  newId: () => string;
}): Promise<boolean> {
  const { read } = parts.database;
  const now = parts.clock();
  const { zone, today } = await localDay(read, now);
  const month = startOfDay(`${today.slice(0, 7)}-01`, zone);
  const [newest] = await listFits(read, 1);
  if (newest && newest.recordedAt >= month) return false;
  if ((await recordedDrives(read, startOfDay(addDays(today, -DAYS_BACK), zone), now)).length < ENOUGH_IN_BAND) return false;
  return (await parts.runner.run(refitTravel, { id: parts.newId() }, { actor: { kind: 'service' } })).ok;
}
