// Looks at other jobs for the same gap, and whether their clients are told: the owner's decision, never automatic.
import { decideTelling } from '@backsight/domain/callbacks/elsewhere';
import { isLegal, type Gap, type Verdict } from '@backsight/domain/callbacks/words';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { ActionRow } from '@backsight/store/callbacks/actions';
import { casesOf, tracedSteps } from '@backsight/store/callbacks/change';
import { decisionsOf, jobsBySameStep, looksOf, saveDecision, saveLook } from '@backsight/store/callbacks/elsewhere';
import { findJobForCallback, type JobForCallback } from '@backsight/store/callbacks/job';
import { findFirm } from '@backsight/store/firm';
import { keepText } from '@backsight/store/text';
import { sendLetter } from '../mail/steps/letter.ts';
import type { Act, Work } from '../run.ts';
import { namesNone, withAction } from './steps/action.ts';
import { actorId, rolesOf } from './steps/callback.ts';
import { chainFor } from './steps/onCall.ts';

/** `id` is the action's; `words` say why the verdict is so. */
export type LookInput = { id: string; jobId: string; lookId: string; gap: Gap; verdict: Verdict; words: string };

export const lookElsewhere: Act<LookInput, { id: string }> = {
  operation: 'callbacks.look-elsewhere',
  run: (work, { id, jobId, lookId, gap, verdict, words }) =>
    withAction(work, id, async (action) => {
      const job = await findJobForCallback(work.tx, jobId);
      if (!job) return refuse('not-found', { thing: 'job' }, 'jobId');
      if (!(await isElsewhere(work, action, job))) return refuse('not-in-list-elsewhere', { number: job.number }, 'jobId');
      const textId = await keepText(work.tx, work.newId(), words, work.now);
      await saveLook(work.tx, {
        id: lookId,
        actionId: id,
        jobId,
        gap,
        verdict,
        textId,
        actorId: actorId(work.actor)!,
        happenedAt: work.now,
      });
      await work.did('corrective-action', id, { event: 'looked-elsewhere', job: job.number, gap, verdict });
      return accept({ id });
    }),
};

/** Whether the job worked by one of the steps and revisions that the action is about, and is none of its own. */
async function isElsewhere(work: Work, action: ActionRow, job: JobForCallback): Promise<boolean> {
  const traced = await tracedSteps(work.tx, action.id);
  const not = traced.map(({ jobId }) => jobId);
  for (const step of traced)
    if ((await jobsBySameStep(work.tx, step, { before: job.number + 1, not, limit: 1 })).includes(job.id)) return true;
  return false;
}

export type TellInput = {
  id: string;
  jobId: string;
  decisionId: string;
  decision: 'tell' | 'not_tell';
  danger: boolean;
  insurerWord: string;
  attorneyWord: string;
  reason: string;
  /** What the letter says; empty where nobody is told. */
  words: string;
};
type Told = { id: string; told: { name: string; way: 'mail' | 'call' }[] };

export const tellElsewhere: Act<TellInput, Told> = {
  operation: 'callbacks.tell-elsewhere',
  run: (work, input) => withAction(work, input.id, (action) => tell(work, action, input)),
};

async function tell(work: Work, action: ActionRow, input: TellInput): Promise<Outcome<Told>> {
  const { id, jobId, decision, danger, insurerWord, attorneyWord } = input;
  const job = await findJobForCallback(work.tx, jobId);
  if (!job) return refuse('not-found', { thing: 'job' }, 'jobId');
  if (!(await isElsewhere(work, action, job))) return refuse('not-in-list-elsewhere', { number: job.number }, 'jobId');
  const callbackIds = action.callbacks.map((c) => c.id);
  const by = actorId(work.actor)!;
  const may = decideTelling(
    {
      roles: rolesOf(work.actor),
      onCall: (await chainFor(work.tx, work.now, false))[0]?.id === by,
      verdict: (await looksOf(work.tx, id)).find((look) => look.jobId === jobId)?.verdict ?? null,
      legal: (await casesOf(work.tx, callbackIds)).some(({ kind }) => isLegal(kind)),
      told: (await decisionsOf(work.tx, id)).some((made) => made.jobId === jobId && made.decision === 'tell'),
    },
    input,
  );
  if (!may.ok) return may;
  // The letter goes to another client: nothing of the callbacks' own clients stands in it.
  const clean = await namesNone(work, callbackIds, { words: input.words });
  if (!clean.ok) return clean;
  const told = decision === 'tell' ? await write(work, job, input) : [];
  const textId = await keepText(work.tx, work.newId(), input.reason, work.now);
  await saveDecision(work.tx, {
    ...{ id: input.decisionId, actionId: id, jobId, decision, danger, insurerWord, attorneyWord, told, textId },
    ...{ actorId: by, happenedAt: work.now },
  });
  await work.did('corrective-action', id, { event: 'decided-to-tell', job: job.number, decision, danger, mails: told.length });
  return accept({ id, told });
}

/** One letter to each client of the job who has an address; the others are to be called. */
async function write(work: Work, job: JobForCallback, { id, danger, words }: TellInput): Promise<Told['told']> {
  const firm = (await findFirm(work.tx))!;
  const clients = job.parties.filter(({ role }) => role === 'client');
  for (const { id: partyId, name, email } of clients)
    if (email)
      await sendLetter(work, {
        kind: danger ? 'danger_elsewhere' : 'same_elsewhere',
        messageKey: `elsewhere-${id}-${job.id}-${partyId}`,
        to: { name, email },
        values: {
          address: `${job.address}, ${job.town}`,
          job: String(job.number),
          words,
          ...{ firm: firm.name, firm_phone: (danger && firm.onCallPhone) || firm.phone },
        },
        about: { kind: 'job', id: job.id },
        urgent: danger,
      });
  return clients.map(({ name, email }) => ({ name, way: email ? 'mail' : 'call' }));
}
