// What the clock does. Each job waits for its last run to end before it runs again.
import { acknowledgements } from './jobs/acknowledgements.ts';
import { actions } from './jobs/actions.ts';
import { bringIns, oldSpreadsheets } from './jobs/bringIns.ts';
import { closedHouse } from './jobs/closedHouse.ts';
import { codes } from './jobs/codes.ts';
import { deposits } from './jobs/deposits.ts';
import { erasedFiles } from './jobs/erasedFiles.ts';
import { figures } from './jobs/figures.ts';
import { halfWritten } from './jobs/halfWritten.ts';
import { lostPlans } from './jobs/lostPlans.ts';
import { oldKeys } from './jobs/oldKeys.ts';
import { lapse } from './jobs/lapse.ts';
import { lapses } from './jobs/lapses.ts';
import { mail } from './jobs/mail.ts';
import { onCall } from './jobs/onCall.ts';
import { papers } from './jobs/papers.ts';
import { pay, payWhole } from './jobs/pay.ts';
import { remind } from './jobs/remind.ts';
import { returns } from './jobs/returns.ts';
import { seal, sealWhole } from './jobs/seal.ts';
import { roadTimes, travelFits } from './jobs/travel.ts';
import type { Job, Services } from './http/services.ts';

/** Every job of the clock, by name. */
export const CLOCK_JOBS: readonly Job[] = [
  acknowledgements,
  returns,
  onCall,
  papers,
  seal,
  sealWhole,
  mail,
  remind,
  deposits,
  pay,
  payWhole,
  lapse,
  lapses,
  actions,
  roadTimes,
  travelFits,
  closedHouse,
  codes,
  erasedFiles,
  figures,
  halfWritten,
  lostPlans,
  oldKeys,
  bringIns,
  oldSpreadsheets,
];

/** Starts every job; the returned function stops them and waits for those under way. */
export function startClockJobs(services: Services): () => Promise<void> {
  const stops = CLOCK_JOBS.map((job) => repeat(job, services));
  return async () => {
    await Promise.all(stops.map((stop) => stop()));
  };
}

function repeat(job: Job, services: Services): () => Promise<void> {
  let stopped = false;
  let timer: NodeJS.Timeout | undefined;
  let underWay: Promise<unknown> = Promise.resolve();
  const turn = () => {
    underWay = job.run(services).then(
      () => services.lastRuns?.set(job.name, services.clock()),
      (error) => services.failed?.(job.name, error),
    );
    void underWay.then(() => {
      if (!stopped) timer = setTimeout(turn, job.everyMs).unref();
    });
  };
  timer = setTimeout(turn, job.everyMs).unref();
  return async () => {
    stopped = true;
    clearTimeout(timer);
    await underWay;
  };
}
