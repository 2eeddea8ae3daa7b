// What every script of the demo needs besides the stage.
import { findJob } from '@backsight/store/jobs/jobs';
import type { NeedKind, NeedState } from '@backsight/domain/jobs/words';
import { settleNeed } from '@backsight/usecases/jobs/settleNeed';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { Caller } from '../clients.ts';
import type { DemoCalendar } from '../calendar.ts';
import { actorOf, PEOPLE } from '../people.ts';
import type { JobPlan } from '../plan.ts';
import type { Scene } from '../stage.ts';

export type DemoContext = {
  calendar: DemoCalendar;
  publicUrl: string;
  /** Serial numbers of the radon monitors that are at no house. */ monitors: string[];
  /** Visits on which somebody in training comes along. */ rides: string[];
  /** Where people were, by person and day, until their miles are entered. */ places: Map<string, { lat: number; lon: number }[]>;
};

/** One job as its scripts know it after the booking. */
export type PlayedJob = {
  plan: JobPlan;
  jobId: string;
  number: number;
  visitId: string;
  startsAt: Date;
  endsAt: Date;
  first: string;
  second: string;
  place: { lat: number; lon: number };
  caller: Caller;
  facts: PropertyFacts;
  totalCents: number;
  agreementId: string;
  invoiceId: string;
};

/** A defect that the report names, at the step where it was seen. */
export type Defect = { stepKey: string; itemId: string | null; text: string };

export const OFFICE = actorOf(PEOPLE.office);
export const OWNER = actorOf(PEOPLE.owner);
export const RUTH = actorOf(PEOPLE.ruth);
export const TOMAS = actorOf(PEOPLE.tomas);

/** Notes how far something on the still-to-get list is, as long as the job goes on. */
export const need =
  (jobId: string, kind: NeedKind, state: NeedState, who: string, how: string): Scene =>
  async (stage) => {
    const job = await findJob(stage.reader, jobId);
    if (job && (job.state === 'booked' || job.state === 'held' || job.state === 'visited' || job.state === 'reported'))
      await stage.act(OFFICE, settleNeed, { jobId, version: job.version, kind, state, who, how });
  };
