// After a visit was moved: an agreement that nobody signed yet, or whose fee changed, is issued anew, and the clients are told.
import type { Warning } from '@backsight/domain/shared/outcome';
import { newestAgreement } from '@backsight/store/agreements';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import { findPeopleNames } from '@backsight/store/agreements/names';
import { timeInWords } from '@backsight/domain/agreements/facts';
import { thereWords } from '@backsight/domain/agreements/notices';
import { findAttendance } from '@backsight/store/jobs/attendance';
import { findJob } from '@backsight/store/jobs/jobs';
import { visitWords } from '@backsight/store/jobs/visitKinds';
import { findObservers } from '@backsight/store/schedule/crew';
import type { VisitRow } from '@backsight/store/schedule/visits';
import { issueAgreement } from '../../agreements/steps/issueAgreement.ts';
import type { Work } from '../../run.ts';
import type { Reserved } from '../../schedule/steps/reserveStart.ts';
import { supersede } from './changeFee.ts';
import { signedBy } from './signedBy.ts';
import { tellMoved, type MovedVisit } from './tellClients.ts';
import { tellPair } from './tellPair.ts';

type Paper = { agreement: MovedVisit['agreement']; warnings: Warning[] };
const NO_PAPER: Paper = { agreement: 'none', warnings: [] };

/** `fee` says in a sentence what the move costs, or why it was; `crew` false: the pair hears of this move with others, in a mail of its own. */
export type MoveWords = { fee?: string | null; feeChanged?: boolean; crew?: boolean };

/**
 * `visit` as it was before the move, `to.visitId` the one that takes its place where it is another. A signed agreement stands, for the mail
 * says the new time; unless its fee changed: then it is superseded.
 */
export async function tellOfMove(
  work: Work,
  visit: VisitRow,
  to: Pick<Reserved, 'startsAt' | 'endsAt' | 'first' | 'second'> & { because?: unknown; visitId?: string },
  publicUrl: string,
  { fee = null, feeChanged = false, crew = true }: MoveWords = {},
): Promise<Warning[]> {
  const main = visit.kind === (await findJob(work.tx, visit.jobId))!.kind;
  const { agreement, warnings } = main ? await renew(work, visit.jobId, publicUrl, feeChanged) : NO_PAPER;
  const job = (await findJobForAgreement(work.tx, visit.jobId))!;
  const ids = [to.first, to.second].filter((id) => id !== null);
  const names = await findPeopleNames(work.tx, ids);
  const told = { visitId: visit.id, version: visit.version + 1, what: await visitWords(work.tx, visit.kind) };
  if (crew) await tellPair(work, job, { ...told, now: to, before: visit });
  await tellMoved(work, job, {
    ...told,
    entry: to.visitId === undefined ? { visitId: visit.id, version: told.version } : { visitId: to.visitId, version: 1 },
    before: visit,
    after: to,
    pair: ids.map((id) => names.get(id)!),
    along: (await findObservers(work.tx, visit.id)).map(({ name }) => name),
    there: main ? await thereAt(work, visit, to, job.zone) : '',
    agreement,
    fee,
  });
  return warnings;
}

/** When the client's side is to be there, as it was agreed; empty when nobody of it comes. */
async function thereAt(work: Work, { jobId, walkThroughMinutes }: VisitRow, to: { startsAt: Date; endsAt: Date }, zone: string) {
  const arrives = (await findAttendance(work.tx, jobId))?.arrives ?? 'not_at_all';
  const at = arrives === 'start' ? to.startsAt : new Date(to.endsAt.getTime() - walkThroughMinutes * 60_000);
  return arrives === 'not_at_all' || at >= to.endsAt ? '' : thereWords(timeInWords(at, zone), arrives === 'walk_through');
}

async function renew(work: Work, jobId: string, publicUrl: string, feeChanged: boolean): Promise<Paper> {
  const before = await newestAgreement(work.tx, jobId);
  if (!before) return { agreement: 'none', warnings: [] };
  const signed = await signedBy(work.tx, jobId);
  if (signed && feeChanged) {
    const { superseded, warnings } = await supersede(work, { id: jobId, state: 'booked' }, publicUrl);
    return { agreement: superseded ? 'superseded' : 'none', warnings };
  }
  if (signed) return { agreement: 'stands', warnings: [] };
  const issued = await issueAgreement(work, { jobId, publicUrl });
  if (!issued.ok)
    return {
      agreement: 'none',
      warnings: [
        {
          code: 'papers-differ',
          text: 'The visit was moved, but the agreement could not be written anew. Look at it before it is signed.',
        },
      ],
    };
  return { agreement: issued.value.agreementId === before.id ? 'none' : 'new', warnings: issued.warnings };
}
