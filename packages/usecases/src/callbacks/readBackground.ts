// What stands around a callback besides record and report: who could lawfully go, what the agreement says, what was traced to the same steps before.
import { capInWords, claimLimitInWords } from '@backsight/domain/agreements/compareTexts';
import { sectionOf } from '@backsight/domain/agreements/sections';
import { readClauses, readLimits } from '@backsight/domain/agreements/stored';
import { capCents } from '@backsight/domain/agreements/text';
import type { Role } from '@backsight/domain/people/roles';
import type { Evidence } from '@backsight/domain/procedures/step';
import { compareTwo, RECORDS_LOOKED_AT } from '@backsight/domain/sitework/partner';
import type { EntryEvidence, StepOutcome } from '@backsight/domain/sitework/value';
import { findCallback, type CallbackRow } from '@backsight/store/callbacks';
import {
  acknowledgementsAround,
  callbacksOfSteps,
  feeOfJob,
  licensesAround,
  termsOfJob,
  twoLooksOfSteps,
  type TwoLooksRow,
} from '@backsight/store/callbacks/background';
import { recordsOfJob } from '@backsight/store/callbacks/evidence';
import { findJobForCallback, type JobForCallback } from '@backsight/store/callbacks/job';
import { findFileFacts } from '@backsight/store/jobs/file';
import { supplementsOf } from '@backsight/store/sitework/afterSeal';
import type { Reader } from '@backsight/store/database';
import { isOwner } from './steps/callback.ts';

/** The background, or null when there is no such callback for this viewer. */
export async function readBackground(reader: Reader, input: { id: string; roles: readonly Role[] }) {
  const callback = await findCallback(reader, input.id);
  if (!callback || (callback.ownerOnly && !isOwner(input.roles))) return null;
  const job = (await findJobForCallback(reader, callback.jobId))!;
  const sameSteps = (await callbacksOfSteps(reader, callback.id, job.id)).filter(({ ownerOnly }) => !ownerOnly || isOwner(input.roles));
  return {
    day: job.inspectedOn,
    pair: await pairThen(reader, job),
    terms: await termsThen(reader, callback, job),
    supplements: await supplements(reader, job.id),
    mails: (await findFileFacts(reader, job.id))!.mails.map(({ at, to, subject, state, body }) => ({ at, to, subject, state, body })),
    sameSteps: sameSteps.map(({ ownerOnly: _, receivedAt, ...row }) => ({ ...row, receivedAt: receivedAt.toISOString() })),
    twoLooks: twoLooks(await twoLooksOfSteps(reader, job.id, RECORDS_LOOKED_AT)),
  };
}

/** Who was there with what they held on the day, and whether they knew the revisions that they worked by. */
async function pairThen(reader: Reader, job: JobForCallback) {
  const people = [...new Set(job.pair.map(({ id }) => id))];
  const licenses = job.inspectedOn === null ? [] : await licensesAround(reader, people, job.inspectedOn);
  const acknowledged = await acknowledgementsAround(reader, job.id, people);
  return people.map((id) => ({
    name: job.pair.find((one) => one.id === id)!.name,
    places: job.pair.filter((one) => one.id === id).map(({ place, visit }) => visit ?? place),
    licenses: licenses.filter(({ personId }) => personId === id).map(({ personId: _, ...license }) => license),
    acknowledged: acknowledged
      .filter(({ personId }) => personId === id)
      .map(({ personId: _, at, ...row }) => ({ ...row, at: at?.toISOString() ?? null })),
  }));
}

/** The clause that says what one must tell the firm, and by when, before it is repaired. */
const NOTICE_KEY = 'notice_and_look';

/** Cap, time to claim and notice as the signed words say them, with the amounts that follow for this job. */
async function termsThen(reader: Reader, callback: CallbackRow, job: JobForCallback) {
  const row = await termsOfJob(reader, job.id);
  if (!row) return null;
  const [clauses, limits] = [readClauses(row.clauses), readLimits(row.limits)];
  const words = (title: string | undefined) => (title === undefined ? null : sectionOf(row.body, title));
  const withField = (field: string) => clauses.find(({ body }) => body.includes(`{{${field}}}`))?.title;
  return {
    agreementId: row.id,
    textNumber: row.number,
    textTitle: row.title,
    inForceFrom: row.inForceFrom?.toISOString() ?? null,
    binds: callback.binding,
    cap: {
      words: capInWords(limits.cap),
      cents: capCents(limits.cap, await feeOfJob(reader, job.id)),
      clause: words(withField('liability_cap')),
    },
    claim: { words: claimLimitInWords(limits.claimMonths), months: limits.claimMonths, clause: words(withField('claim_window')) },
    notice: words(clauses.find(({ key }) => key === NOTICE_KEY)?.title),
  };
}

async function supplements(reader: Reader, jobId: string) {
  const found = [];
  for (const { recordId } of await recordsOfJob(reader, jobId))
    for (const { id, text, by, happenedAt } of await supplementsOf(reader, recordId))
      found.push({ id, words: text ?? '(erased)', by, at: happenedAt.toISOString() });
  return found;
}

/** By step: how often two looked on their own, and how often they differed; words and photos are compared by people only. */
function twoLooks(rows: readonly TwoLooksRow[]) {
  const resultOf = (row: TwoLooksRow) =>
    compareTwo(
      { outcome: row.firstOutcome as StepOutcome, evidence: row.first as EntryEvidence | null },
      { outcome: row.secondOutcome as StepOutcome, evidence: row.second as EntryEvidence | null },
      row.asked as Evidence,
    );
  const compared = rows.map((row) => ({ ...row, result: resultOf(row) })).filter(({ result }) => result !== 'not_compared');
  const sum = (of: typeof compared): number => of.reduce((total, { count }) => total + count, 0);
  return [...new Set(compared.map(({ stepKey }) => stepKey))].map((stepKey) => {
    const here = compared.filter((row) => row.stepKey === stepKey);
    return { stepKey, looks: sum(here), differed: sum(here.filter(({ result }) => result === 'differ')) };
  });
}
