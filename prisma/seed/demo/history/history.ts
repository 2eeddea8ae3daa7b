// The demo firm's first years, written as rows: about 2,700 inspections before the weeks that are played by acts of the service.
import { shiftDay } from '@backsight/domain/shared/calendar';
import type { DemoCalendar } from '../calendar.ts';
import { idMaker } from '../chance.ts';
import { insert, type Tables } from '../memory/tables.ts';
import { agents } from '../clients.ts';
import { BEGAN_DAYS_AGO } from '../firm.ts';
import { PAST_WORKDAYS } from '../plan.ts';
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

/** The jobs of the days from so many days ago to the weeks that are played. */
export const jobsBefore = (calendar: DemoCalendar, days: number): PastJob[] =>
  pastJobs(calendar, shiftDay(calendar.today, -days), calendar.workday(-PAST_WORKDAYS - 1));

/** Numbers of jobs, invoices and reports that are played begin behind those of the past. */
export const countersAfter = (jobs: number) => (['job', 'invoice', 'report'] as const).map((kind) => ({ kind, next: FIRST_NUMBER + jobs }));

/** Writes one job with everything of it. The same job makes the same rows, whenever it is written. */
export function writeJob(tables: Tables, { firm, books }: Ground, job: PastJob): CameBack {
  const pen = penFor(tables, idMaker(SEED + job.n));
  const booked = addJob(pen, firm, job);
  addPapers(pen, firm, booked);
  return { booked, ...addRecord(pen, { ...booked, revisions: inForceAt(books, booked.startsAt) }) };
}

export type Past = {
  jobs: number;
  /** Once the firm is there: the jobs about which somebody calls, each when its day is over, and the calls on the stage. */
  comesUp: (demo: DemoContext, stage: Stage) => void;
  /** All others, when everything has been played: nobody asks for them until then. */
  rest: () => void;
};

/** The past of the firm in memory. */
export function pastOf(tables: Tables, calendar: DemoCalendar, jobs: readonly PastJob[]): Past {
  return {
    jobs: jobs.length,
    comesUp: (demo, stage) => {
      if (jobs.length === 0) return;
      const learnt = learns(demo, stage);
      const recordedAt = calendar.at(shiftDay(calendar.today, -BEGAN_DAYS_AGO), 10);
      for (const agent of agents()) insert(tables, 'party', { ...agent, recordedAt });
      for (const job of jobs.filter(comesBack))
        stage.at(calendar.at(shiftDay(job.day, 1), 6), async (later) =>
          callbackComes(demo, later, writeJob(tables, groundInMemory(tables, calendar), job), learnt),
        );
    },
    rest: () => {
      const ground = groundInMemory(tables, calendar);
      for (const job of jobs) if (!comesBack(job)) writeJob(tables, ground, job);
    },
  };
}
