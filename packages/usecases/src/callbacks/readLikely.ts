// The steps that a callback may be traced to, worked out while somebody looks. Reads only: nothing of it is kept, logged or exported.
import { likelySteps, type Looked, type RecordedStep } from '@backsight/domain/callbacks/likely';
import { askedWords } from '@backsight/domain/callbacks/tradeWords';
import type { Role } from '@backsight/domain/people/roles';
import { evaluate } from '@backsight/domain/shared/evaluate';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { findCallback, wordsOf } from '@backsight/store/callbacks';
import { entriesOfJob, stepsOfJob, type EntryRow, type WorkedStepRow } from '@backsight/store/callbacks/evidence';
import { findJobForCallback, type JobForCallback } from '@backsight/store/callbacks/job';
import { servicesOfJob, stepsSince, tracedBefore, wordHits } from '@backsight/store/callbacks/likely';
import type { Reader } from '@backsight/store/database';
import { isOwner } from './steps/callback.ts';

/** The newest so many traced callbacks are compared with: more would not fit in a look (50 ms), and old cases tell of old procedures. */
const TRACED_AT_MOST = 200;
const LATER_AT_MOST = 3;

type Titled = { stepKey: string; revisionId: string; title: string; system: string; procedureTitle: string };
/** `words`: look for these in place of what the callback says. */
type LikelyInput = { id: string; words: string | null; roles: readonly Role[]; now: Date };

/**
 * Up to five steps of the job's package, best first, and up to three that apply to the house by the book of today and were in no
 * revision that the pair worked by. Null when there is no such callback for this viewer. For owner and lead inspector alone.
 */
export async function readLikely(reader: Reader, { id, words, roles, now }: LikelyInput) {
  const callback = await findCallback(reader, id);
  if (!callback || (callback.ownerOnly && !isOwner(roles))) return null;
  const job = (await findJobForCallback(reader, callback.jobId))!;
  const [worked, entries] = [await stepsOfJob(reader, job.id), await entriesOfJob(reader, job.id)];
  const said = words ?? `${callback.place} ${(await wordsOf(reader, callback.textId)) ?? ''}`;
  const handedOut = titlesOf(worked);
  const later = handedOut.length === 0 ? [] : await notThen(reader, job, now);
  const found = await rankSteps(reader, {
    callbackId: id,
    system: words === null ? callback.system : '',
    said,
    steps: recordedSteps(handedOut, entries),
    texts: [...handedOut, ...later],
    seeOwnerOnly: isOwner(roles),
  });
  const shown = (one: { stepKey: string; title: string; reasons: string[] }) => ({
    ...{ stepKey: one.stepKey, title: one.title, reasons: one.reasons },
    procedureTitle: [...handedOut, ...later].find(({ stepKey }) => stepKey === one.stepKey)!.procedureTitle,
  });
  return {
    handedOut: handedOut.length,
    likely: likelySteps(found, words === null ? 5 : 10).map(shown),
    notThen: likelySteps({ ...found, steps: later.map((step) => ({ ...step, results: [] })), recorded: false }, LATER_AT_MOST).map(shown),
  };
}

type Ranking = {
  callbackId: string;
  system: string;
  said: string;
  steps: readonly RecordedStep[];
  texts: readonly { stepKey: string; revisionId: string }[];
  seeOwnerOnly: boolean;
};

/** Loads what the ranking of the steps needs beside them. */
export async function rankSteps(reader: Reader, { callbackId, system, said, steps, texts, seeOwnerOnly }: Ranking): Promise<Looked> {
  const asked = askedWords(said);
  const words = asked.map(({ word }) => word);
  const hits = await wordHits(reader, texts, words);
  const traced = await tracedBefore(reader, { callbackId, words, seeOwnerOnly, limit: TRACED_AT_MOST });
  return { system, asked, steps, hits, traced, recorded: steps.some(({ results }) => results.length > 0) };
}

const titlesOf = (worked: readonly WorkedStepRow[]): Titled[] => [...new Map(worked.map((step) => [step.stepKey, step])).values()];

/** Steps of the book of today that apply to the house (an unknown fact lets them apply) and that no revision of the package had. */
async function notThen(reader: Reader, job: JobForCallback, now: Date): Promise<Titled[]> {
  const context = {
    facts: job.facts as PropertyFacts,
    services: await servicesOfJob(reader, job.id),
    day: job.inspectedOn ?? now.toISOString().slice(0, 10),
  };
  return (await stepsSince(reader, job.id, now)).filter(({ applies }) => evaluate(applies, context) !== 'no');
}

/** Standing entries by step. The two of a pair differ when their standing answers at one place do. */
function recordedSteps(steps: readonly Titled[], entries: readonly EntryRow[]): RecordedStep[] {
  return steps.map(({ stepKey, title, system }) => {
    const standing = entries.filter((e) => e.stepKey === stepKey && e.supersededById === null);
    const differs = (e: EntryRow): boolean =>
      standing.some(
        (o) =>
          o.itemId === e.itemId &&
          o.observerId !== e.observerId &&
          (o.outcome !== e.outcome || JSON.stringify(o.value.evidence) !== JSON.stringify(e.value.evidence)),
      );
    return {
      ...{ stepKey, title, system },
      results: standing.map((e) => ({ outcome: e.outcome, match: e.match, partnerDiffers: differs(e) })),
    };
  });
}
