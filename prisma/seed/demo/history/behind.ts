// Loads the past of the demo firm behind the first answers of the service: in batches, each whole or not at all, so that it goes on where it was cut off.
import { DateTime } from 'luxon';
import { copyIn } from '@backsight/store/copy';
import type { Reader } from '@backsight/store/database';
import { calendarOf, ZONE } from '../calendar.ts';
import { BEGAN_DAYS_AGO } from '../firm.ts';
import { loadTables } from '../load.ts';
import type { Tables } from '../memory/tables.ts';
import { FIRST_DAYS_AGO, FIRST_NUMBER, jobsWritten, writeJob, writeRest } from './history.ts';
import { groundInDatabase } from './ground.ts';
import { BEHIND, nextPastNumber } from './left.ts';
import { comesBack } from './pastCallbacks.ts';

const AT_ONCE = 25;

/** Its number goes on from the one that it was read at: two services on one database never load the same jobs. */
const GOES_ON = `UPDATE number_counter SET next = $3 WHERE kind = $1 AND next = $2`;
const WHOLE = `DELETE FROM number_counter WHERE kind = $1 AND next = $2`;

export type Behind = {
  /** The database as the owner of its tables. */ url: string;
  reader: Reader;
  /** Told after every batch: how many percent are there, 0 to 99. */ progress: (percent: number) => void;
  /** Asked before every batch. */ stopped: () => boolean;
};

/** Loads what is left of the past. Answers whether it made it whole; false when nothing was left, or it was stopped. */
export async function loadPastBehind({ url, reader, progress, stopped }: Behind): Promise<boolean> {
  let next = await nextPastNumber(reader);
  if (next === null) return false;
  const [firm] = await reader.rows<{ at: Date }>('SELECT set_up_at AS at FROM firm');
  const calendar = calendarOf(DateTime.fromJSDate(firm!.at, { zone: ZONE }).plus({ days: BEGAN_DAYS_AGO }).set({ hour: 12 }).toJSDate());
  const { before, beside } = jobsWritten(calendar, FIRST_DAYS_AGO);
  const jobs = [...beside, ...before]; // the newest are missed first
  const ground = await groundInDatabase(reader, calendar);
  const end = FIRST_NUMBER + jobs.length;
  while (next < end) {
    progress(Math.floor((100 * (next - FIRST_NUMBER)) / jobs.length));
    const until = Math.min(next + AT_ONCE, end);
    const tables: Tables = new Map();
    for (const job of jobs.slice(next - FIRST_NUMBER, until - FIRST_NUMBER)) {
      if (stopped()) return false;
      if (beside.includes(job)) writeRest(tables, ground, job);
      else if (!comesBack(job)) writeJob(tables, ground, job);
      await othersFirst();
    }
    const from = next;
    await copyIn(url, async (session) => {
      if ((await session.run(GOES_ON, [BEHIND, from, until])) !== 1) throw new Error('another service loads the past of the demo firm');
      await loadTables(session, tables, new Date(), ['ledgerEntry', 'invoice']);
    });
    next = until;
  }
  await copyIn(url, (session) => session.run(WHOLE, [BEHIND, end]));
  return true;
}

/** Lets whatever the service was asked for in between be answered. */
const othersFirst = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
