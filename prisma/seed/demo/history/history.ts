// The demo firm's first years, written as rows: about 2,700 inspections before the weeks that are played by acts of the service, and a hundred
// plain ones beside the special ones of the first of these weeks.
import { shiftDay } from '@backsight/domain/shared/calendar';
import type { DemoCalendar } from '../calendar.ts';
import { idMaker } from '../chance.ts';
import { insert, type Tables } from '../memory/tables.ts';
import { agents } from '../clients.ts';
import { BEGAN_DAYS_AGO } from '../firm.ts';
import { PAST_WORKDAYS, PLAYED_WORKDAYS } from '../plan.ts';
import type { DemoContext } from '../scripts/context.ts';
import type { Stage } from '../stage.ts';
import { groundInMemory, inForceAt, type Ground } from './ground.ts';
import { addJob } from './jobRows.ts';
import { addPapers } from './papers.ts';
import { pastJobs, type PastJob } from './past.ts';
import { learns } from './lesson.ts';
import { callbackComes, comesBack, type CameBack } from './pastCallbacks.ts';
import { penFor } from './pen.ts';
import { addRecord } from './record.ts';

const SEED = 8812;

/** Days before today on which the first inspection on record was: two years and a half. */
export const FIRST_DAYS_AGO = 915;
export const FIRST_NUMBER = 1001;

/** The jobs of the days from so many days ago to the weeks that are played, and behind them the plain ones of the first of these weeks. */
export function jobsWritten(calendar: DemoCalendar, days: number): { before: PastJob[]; beside: PastJob[] } {
  const [played, plainPlayed] = [calendar.workday(-PAST_WORKDAYS - 1), calendar.workday(-PLAYED_WORKDAYS)];
  const jobs = pastJobs(calendar, shiftDay(calendar.today, -days), plainPlayed, played);
  return { before: jobs.filter(({ day }) => day < played), beside: jobs.filter(({ day }) => day >= played) };
}

/** Numbers of jobs, invoices and reports that are played begin behind those of the past. */
export const countersAfter = (jobs: number) => (['job', 'invoice', 'report'] as const).map((kind) => ({ kind, next: FIRST_NUMBER + jobs }));

/** Writes one job into `tables`, and its papers, its money and its record into those of `rest`. The same job makes the same rows, whenever it is written. */
function write({ tables, rest }: { tables: Tables; rest: Tables }, { firm, books }: Ground, job: PastJob): CameBack {
  const newId = idMaker(SEED + job.n);
  const booked = addJob(penFor(tables, newId), firm, job);
  const pen = penFor(rest, newId);
  addPapers(pen, firm, booked);
  return { booked, ...addRecord(pen, { ...booked, revisions: inForceAt(books, booked.startsAt) }) };
}

/** Writes one job with everything of it. */
export const writeJob = (tables: Tables, ground: Ground, job: PastJob): CameBack => write({ tables, rest: tables }, ground, job);

/** Writes what a job lacks that is in the calendar already. */
export const writeRest = (tables: Tables, ground: Ground, job: PastJob): void =>
  void write({ tables: new Map(), rest: tables }, ground, job);

export type Past = {
  jobs: number;
  /** Working days before today of which the plain jobs are still to be played; all where nothing is written. */ plainDays?: number;
  /**
   * Once the firm is there: the jobs about which somebody calls, each when its day is over, and the calls on the stage. Those beside the played
   * ones are in the calendar at once, so that nobody is sent elsewhere then.
   */
  comesUp: (demo: DemoContext, stage: Stage) => void;
  /** All others, and what those in the calendar lack, when everything has been played: nobody asks for them until then. */
  rest: () => void;
};

/** The past of the firm in memory. */
export function pastOf(tables: Tables, calendar: DemoCalendar, days: number): Past {
  const { before: jobs, beside } = jobsWritten(calendar, days);
  return {
    jobs: jobs.length + beside.length,
    ...(beside.length > 0 ? { plainDays: PLAYED_WORKDAYS } : {}),
    comesUp: (demo, stage) => {
      if (jobs.length === 0) return;
      const learnt = learns(demo, stage);
      const recordedAt = calendar.at(shiftDay(calendar.today, -BEGAN_DAYS_AGO), 10);
      for (const agent of agents()) insert(tables, 'party', { ...agent, recordedAt });
      for (const job of jobs.filter(comesBack))
        stage.at(calendar.at(shiftDay(job.day, 1), 6), async (later) =>
          callbackComes(demo, later, writeJob(tables, groundInMemory(tables, calendar), job), learnt),
        );
      const { firm } = groundInMemory(tables, calendar);
      for (const { chance, ...job } of beside) addJob(penFor(tables, idMaker(SEED + job.n)), firm, { ...job, chance: chance.copy() });
    },
    rest: () => {
      const ground = groundInMemory(tables, calendar);
      for (const job of jobs) if (!comesBack(job)) writeJob(tables, ground, job);
      for (const job of beside) writeRest(tables, ground, job);
    },
  };
}
