// Agreements that go another way: declined, signed on paper at the door, and replaced because more was learned of the house.
import { newestAgreement, signersOf } from '@backsight/store/agreements';
import { findJob } from '@backsight/store/jobs/jobs';
import { answerAsClient } from '@backsight/usecases/agreements/answerByLink';
import { recordPaperSignature } from '@backsight/usecases/agreements/recordPaperSignature';
import { issuePapersAgain } from '@backsight/usecases/jobs/issuePapersAgain';
import { learnFacts } from '@backsight/usecases/jobs/learnFacts';
import { dayOf, hoursAfter, minutesAfter } from '../calendar.ts';
import { linkOf } from '../memory/mailLink.ts';
import { actorOf, byId } from '../people.ts';
import { valueOf, type Scene, type Stage } from '../stage.ts';
import { OFFICE, type DemoContext, type PlayedJob } from './context.ts';

/** Every so many jobs, and which of them. */
const DECLINES = { every: 23, at: 7 };
const ON_PAPER = { every: 29, at: 11 };
const LEARNED = { every: 19, at: 3 };
const isOne = ({ plan }: PlayedJob, { every, at }: { every: number; at: number }): boolean => plan.role === 'none' && plan.n % every === at;

/** Answers whether the clients of this job do not sign on their links. */
export function signsOtherwise({ calendar }: DemoContext, stage: Stage, job: PlayedJob): boolean {
  const ahead = dayOf(job.startsAt) > calendar.today;
  if (ahead && isOne(job, DECLINES)) {
    stage.at(minutesAfter(stage.now(), 95), declines(job));
    return true;
  }
  if (!ahead && isOne(job, ON_PAPER)) {
    stage.at(minutesAfter(job.startsAt, -15), signOnPaper(job));
    return true;
  }
  return false;
}

const declines =
  ({ jobId, agreementId }: PlayedJob): Scene =>
  async (stage) => {
    if ((await findJob(stage.reader, jobId))?.state !== 'booked') return;
    const [signer] = await signersOf(stage.reader, agreementId);
    const input = {
      token: await linkOf(stage.reader, signer!.id),
      kind: 'declined' as const,
      reason: 'We want our attorney to read the part about disputes first.',
    };
    valueOf(await answerAsClient({ reader: stage.reader, runner: stage.runner, now: stage.now() }, input), 'an answer');
  };

const signOnPaper =
  ({ jobId, first }: PlayedJob): Scene =>
  async (stage) => {
    const agreement = await newestAgreement(stage.reader, jobId);
    if (!agreement || (await findJob(stage.reader, jobId))?.state !== 'booked') return;
    for (const { id, name, signature } of await signersOf(stage.reader, agreement.id)) {
      if (signature) continue;
      await stage.act(actorOf(byId(first)), recordPaperSignature, {
        ...{ id: stage.newId(), signerId: id, method: 'paper', name, read: true, consent: false, sha256: '', word: '', strokes: '' },
        ...{ interpreter: '', photo: null, keptWhere: 'Folder of the job in the office', signedAt: null, device: '', directory: null },
      });
    }
  };

/** Some days after the signing the office learns of a pool: the agreement and the invoice are issued anew, and the clients sign once more. */
export function moreIsLearned({ calendar, publicUrl }: DemoContext, stage: Stage, job: PlayedJob): void {
  if (dayOf(job.startsAt) <= calendar.today || !isOne(job, LEARNED)) return;
  stage.at(hoursAfter(stage.now(), 50), async (later) => {
    const row = await findJob(later.reader, job.jobId);
    if (row?.state !== 'booked') return;
    const facts = { ...job.facts, features: [...new Set([...(job.facts.features ?? []), 'pool' as const])] };
    await later.act(OFFICE, learnFacts, { id: job.jobId, version: row.version, facts });
    await later.act(OFFICE, issuePapersAgain, { id: job.jobId, publicUrl });
  });
}
