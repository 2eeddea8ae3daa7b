// What was learned of a property after the booking: the difference first, then the change of the job.
import type { FeeLine } from '@backsight/domain/fees/schedule';
import { mayLearn } from '@backsight/domain/jobs/decide';
import { feeDifference } from '@backsight/domain/jobs/difference';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findFeeLines, lockJob } from '@backsight/store/jobs/jobs';
import { saveFacts } from '@backsight/store/jobs/properties';
import { findVisitsOfJob } from '@backsight/store/schedule/visits';
import type { Act, Work } from '../run.ts';
import { feeOf, replaceLines } from './steps/feeLines.ts';
import { jobContext, noteJob } from './steps/loadJob.ts';
import { priceAt } from './steps/priceAt.ts';

export type FactsDifference = {
  beforeCents: number;
  afterCents: number;
  fee: ReturnType<typeof feeDifference>;
  assumptions: string[];
  beforeMinutes: number | null;
  afterMinutes: number;
  duration: { label: string; minutes: number; reason: string }[];
};
type Requote = { difference: FactsDifference; lines: FeeLine[]; warnings: Warning[] };

/** The job priced again under its own schedule and rules with other facts; changes nothing. */
export async function previewFacts(reader: Reader, now: Date, jobId: string, facts: PropertyFacts): Promise<Outcome<FactsDifference>> {
  const again = await requote(reader, now, jobId, facts);
  return again.ok ? accept(again.value.difference) : again;
}

async function requote(reader: Reader, now: Date, jobId: string, facts: PropertyFacts): Promise<Outcome<Requote>> {
  const context = await jobContext(reader, jobId, now);
  if (!context.ok) return context;
  const { job } = context.value;
  const visit = (await findVisitsOfJob(reader, jobId)).find(({ kind }) => kind === job.kind);
  const priced = await priceAt(reader, context.value, { facts, startsAt: visit?.startsAt ?? null, now });
  if (!priced.ok) return priced;
  const before = await findFeeLines(reader, jobId);
  const { lines, plan } = priced.value;
  const { fee, duration } = plan;
  const beforeMinutes = visit ? (visit.endsAt.getTime() - visit.startsAt.getTime()) / 60_000 : null;
  const difference = {
    beforeCents: feeOf(before),
    afterCents: feeOf(lines),
    fee: feeDifference(before, lines),
    assumptions: fee.assumptions,
    beforeMinutes,
    afterMinutes: duration.minutes,
    duration: duration.lines.filter(({ report }) => !report).map(({ label, minutes, reason }) => ({ label, minutes, reason })),
  };
  const longer = beforeMinutes !== null && duration.minutes > beforeMinutes;
  const warnings = longer
    ? [
        {
          code: 'visit-too-short',
          text: `The visit takes ${duration.minutes} minutes now and is booked for ${beforeMinutes}. Move it to a start with more time.`,
        },
      ]
    : [];
  return accept({ difference, lines, warnings });
}

export type LearnInput = { id: string; version: number; facts: PropertyFacts };
export type Learned = { id: string; version: number; totalCents: number; warnings: Warning[] };

export const learnFacts: Act<LearnInput, Learned> = { operation: 'jobs.learn-facts', run: learn };

async function learn(work: Work, input: LearnInput): Promise<Outcome<Learned>> {
  const job = await lockJob(work.tx, input.id);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (job.version !== input.version) return refuse('changed-meanwhile');
  const allowed = mayLearn(job.state);
  if (!allowed.ok) return allowed;
  if (sameFacts(job.facts, input.facts)) return refuse('nothing-changed', {}, 'facts');
  const again = await requote(work.tx, work.now, job.id, input.facts);
  if (!again.ok) return again;
  const { difference, lines, warnings } = again.value;
  const recordedBy = work.actor.kind === 'person' ? work.actor.id : null;
  await saveFacts(work.tx, { id: work.newId(), propertyId: job.propertyId, facts: input.facts, recordedAt: work.now, recordedBy });
  if (difference.fee.length > 0) await replaceLines(work, job.id, lines);
  const { beforeCents, afterCents } = difference;
  const version = await noteJob(work, job.id, job.state, {
    kind: 'facts_learned',
    details: { facts: input.facts, beforeCents, afterCents },
  });
  await work.did('job', job.id, { factsLearned: Object.keys(input.facts), beforeCents, afterCents });
  const papers =
    job.state !== 'held' && beforeCents !== afterCents
      ? [
          {
            code: 'papers-differ',
            text: 'The fee changed after the papers were issued. Issue the new agreement and invoice from the page of the job.',
          },
        ]
      : [];
  return accept({ id: job.id, version, totalCents: afterCents, warnings: [...warnings, ...papers] }, [...warnings, ...papers]);
}

const sorted = (facts: PropertyFacts): string => JSON.stringify(Object.entries(facts).sort(([a], [b]) => (a < b ? -1 : 1)));
const sameFacts = (a: PropertyFacts, b: PropertyFacts): boolean => sorted(a) === sorted(b);
