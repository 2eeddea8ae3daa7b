// A visit that ends otherwise than complete: its people are free, what hangs on it falls away, and what is to decide is asked.
import { addNeed } from '@backsight/store/jobs/markNeed';
import { dropNeeds, findFeeLines, lockJob } from '@backsight/store/jobs/jobs';
import type { NeedKind } from '@backsight/domain/jobs/words';
import { endVisits } from '@backsight/store/schedule/visits';
import { endRecord } from '@backsight/store/sitework';
import { saveEnding, shortenEnded } from '@backsight/store/sitework/ending';
import { awaitedOfJob } from '@backsight/store/sitework/testItems';
import type { VisitRow } from '@backsight/store/sitework/visit';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { mayEndEarly, type EndingCommand } from '@backsight/domain/sitework/ending';
import { jobEnded } from '@backsight/domain/sitework/visit';
import { noteJob } from '../../jobs/steps/loadJob.ts';
import type { Work } from '../../run.ts';
import type { LoadedRecord } from './loadRecord.ts';
import { fillNotReached } from './notReached.ts';

export type EarlyEnd = EndingCommand & { textId: string | null; photoSha256: string | null };

/** `record`: the open record of the visit, if it was started. Answers how many steps were not reached. Visit (and record) are locked. */
export async function endEarly(
  work: Work,
  visit: VisitRow,
  record: LoadedRecord | null,
  said: EarlyEnd,
): Promise<Outcome<{ notReached: number }>> {
  if (work.actor.kind !== 'person') throw new Error('a visit is ended by a person');
  const open = record !== null && record.record.state === 'open';
  const facts = {
    visitState: visit.state,
    startsAt: visit.startsAt,
    recordOpen: open,
    recordEnded: record !== null && record.record.endedAs !== null,
  };
  const allowed = mayEndEarly(facts, said, work.now);
  if (!allowed.ok) return allowed;
  const notReached = open ? await fillNotReached(work, record, work.actor.id) : 0;
  if (open) await endRecord(work.tx, record.record.id, said.kind);
  await saveEnding(work.tx, { visitId: visit.id, ...said, recordedAt: work.now, recordedBy: work.actor.id });
  await shortenEnded(work.tx, visit.id, said.endedAt);
  await moveTheJob(work, visit, said);
  await work.did('visit', visit.id, { endedAs: said.kind, reportOwed: said.reportOwed, notReached });
  return accept({ notReached });
}

const FOR_THE_VISIT: NeedKind[] = ['access', 'utilities', 'signature', 'tenant_notice', 'client_address', 'closed_house'];

/** Further visits of a re-look or a pick-up say nothing about the job; only the visit that the job is for does. */
async function moveTheJob(work: Work, visit: VisitRow, said: EarlyEnd): Promise<void> {
  const job = (await lockJob(work.tx, visit.jobId))!;
  const main = visit.kind === job.kind;
  if (main) {
    await endVisits(work.tx, job.id, 'cancelled');
    const awaited = await awaitedOfJob(work.tx, job.id);
    await dropNeeds(work.tx, job.id, work.now, awaited.length > 0 ? FOR_THE_VISIT : [...FOR_THE_VISIT, 'results']);
    const fee = (await findFeeLines(work.tx, job.id)).reduce((sum, { cents }) => sum + cents, 0);
    if (fee > 0) await ask(work, job.id, 'ending_fee', 'What is charged by the rule, or why nothing is.');
    if (said.reportOwed === 'later') await ask(work, job.id, 'report_owed', 'Somebody has to decide whether the client gets a report.');
  }
  const details = { visitId: visit.id, endedAs: said.kind, reportOwed: said.reportOwed };
  await noteJob(
    work,
    job.id,
    main ? jobEnded(said.reportOwed)(job.state) : job.state,
    { kind: 'visit_ended', details },
    said.textId ?? undefined,
  );
}

const DAY = 86_400_000;

const ask = (work: Work, jobId: string, kind: 'ending_fee' | 'report_owed', why: string): Promise<void> =>
  addNeed(work.tx, { id: work.newId(), jobId, kind, dueAt: new Date(work.now.getTime() + DAY), details: { why }, at: work.now });
