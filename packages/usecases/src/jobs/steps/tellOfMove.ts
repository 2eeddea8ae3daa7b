// After a visit was moved: an agreement that nobody signed yet is issued with the new time, and the clients are told.
import type { Warning } from '@backsight/domain/shared/outcome';
import { newestAgreement, signersOf } from '@backsight/store/agreements';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import { findPeopleNames } from '@backsight/store/agreements/names';
import type { VisitRow } from '@backsight/store/schedule/visits';
import { issueAgreement } from '../../agreements/steps/issueAgreement.ts';
import type { Work } from '../../run.ts';
import type { Reserved } from '../../schedule/steps/reserveStart.ts';
import { tellMoved, type MovedVisit } from './tellClients.ts';

type Paper = { agreement: MovedVisit['agreement']; warnings: Warning[] };

/** `visit` as it was before the move. A signed agreement stands: the mail says the new time. */
export async function tellOfMove(
  work: Work,
  visit: VisitRow,
  to: Pick<Reserved, 'startsAt' | 'endsAt' | 'first' | 'second'>,
  publicUrl: string,
): Promise<Warning[]> {
  const { agreement, warnings } = await renew(work, visit.jobId, publicUrl);
  const job = (await findJobForAgreement(work.tx, visit.jobId))!;
  const ids = [to.first, to.second].filter((id) => id !== null);
  const names = await findPeopleNames(work.tx, ids);
  await tellMoved(work, job, {
    visitId: visit.id,
    version: visit.version + 1,
    what: visit.kind.replaceAll('_', ' '),
    before: visit,
    after: to,
    pair: ids.map((id) => names.get(id)!),
    agreement,
  });
  return warnings;
}

async function renew(work: Work, jobId: string, publicUrl: string): Promise<Paper> {
  const before = await newestAgreement(work.tx, jobId);
  if (!before) return { agreement: 'none', warnings: [] };
  if ((await signersOf(work.tx, before.id)).some(({ signature }) => signature !== null)) return { agreement: 'stands', warnings: [] };
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
