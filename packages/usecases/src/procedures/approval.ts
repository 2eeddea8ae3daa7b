// Approves a revision, and takes it back while it is not in force yet.
import { compareRevisions } from '@backsight/domain/procedures/compare';
import { approve, withdraw } from '@backsight/domain/procedures/revise';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findFirm } from '@backsight/store/firm';
import { acknowledgementsOf, listProcedures, stepsOf, type RevisionRow } from '@backsight/store/procedures/book';
import { takeBack } from '@backsight/store/procedures/change';
import { approveDrafts, closePeriod, openPeriods } from '@backsight/store/procedures/save';
import { keepText } from '@backsight/store/text';
import { finishActions } from '../callbacks/steps/finishActions.ts';
import type { Act, Work } from '../run.ts';
import { calendarOf } from '../firm/steps/calendar.ts';
import { draftContext, lockRevision, revisionFacts } from './steps/facts.ts';

/** Instants as ISO text. `publicUrl` is where the service is reached, for the link in the mail. */
export type ApproveInput = {
  id: string;
  version: number;
  inForceFrom: string | null;
  acknowledgeBy: string | null;
  graceReason: string | null;
  publicUrl: string;
};
type Approved = { id: string; inForceFrom: string; acknowledgeBy: string };

export const approveRevision: Act<ApproveInput, Approved> = { operation: 'procedures.approve', run: approveIt };

async function approveIt(work: Work, input: ApproveInput): Promise<Outcome<Approved>> {
  const { tx, now, actor } = work;
  if (actor.kind !== 'person') return refuse('not-allowed');
  const found = await lockRevision(tx, input.id);
  if (!found) return refuse('not-found', { thing: 'revision' });
  const { row, newest } = found;
  const steps = await stepsOf(tx, row.id);
  const { base, problems } = await draftContext(tx, row, steps, now);
  const decided = approve(
    {
      revision: revisionFacts(row),
      newest,
      problems,
      changesSomething: compareRevisions(base, steps).differences.length > 0,
      now: now.toISOString(),
      graceDays: (await findFirm(tx))?.graceDays ?? 0,
      calendar: await calendarOf(tx, null, input.inForceFrom === null ? now : new Date(input.inForceFrom)),
    },
    {
      approverId: actor.id,
      roles: actor.roles,
      inForceFrom: input.inForceFrom,
      acknowledgeBy: input.acknowledgeBy,
      graceReason: input.graceReason,
    },
  );
  if (!decided.ok) return decided;
  const graceTextId = decided.value.shortened ? await keepText(tx, work.newId(), input.graceReason ?? '', now) : null;
  const times = { inForceFrom: new Date(decided.value.inForceFrom), acknowledgeBy: new Date(decided.value.acknowledgeBy) };
  if ((await approveDrafts(tx, [row.id], { approverId: actor.id, approvedAt: now, ...times, graceTextId }, input.version)) === 0)
    return refuse('changed-meanwhile');
  await closePeriod(tx, row.procedureId, times.inForceFrom);
  await openPeriods(tx, [{ id: work.newId(), procedureId: row.procedureId, revisionId: row.id, fromAt: times.inForceFrom }]);
  const said = { inForceFrom: times.inForceFrom.toISOString(), acknowledgeBy: times.acknowledgeBy.toISOString() };
  await work.did('procedure-revision', row.id, { event: 'approved', number: row.number, ...said, graceReasonId: graceTextId });
  await tellInspectors(work, row, times, input.publicUrl);
  await finishActions(work);
  return accept({ id: row.id, ...said });
}

/** One mail to each inspector with the link to the comparison; nothing of the revision itself is in it. */
async function tellInspectors(
  work: Work,
  row: RevisionRow,
  times: { inForceFrom: Date; acknowledgeBy: Date },
  publicUrl: string,
): Promise<void> {
  const title = (await listProcedures(work.tx)).find(({ id }) => id === row.procedureId)?.title ?? '';
  const zone = (await findFirm(work.tx))?.zone ?? 'UTC';
  const say = (at: Date): string => at.toLocaleString('en-US', { timeZone: zone, dateStyle: 'full', timeStyle: 'short' });
  for (const { personId, name, email } of await acknowledgementsOf(work.tx, row.id, work.now)) {
    await work.mail({
      messageKey: `procedure-revision:${row.id}:${personId}`,
      toAddress: email,
      toName: name,
      aboutKind: 'procedure-revision',
      aboutId: row.id,
      subject: `${title}: revision ${row.number} to read`,
      body:
        `${name},\n\nthe procedure "${title}" changes. Revision ${row.number} is in force from ${say(times.inForceFrom)}.\n` +
        `Please read what is different and confirm by ${say(times.acknowledgeBy)}:\n\n${publicUrl}/procedures/acknowledge/${row.id}\n`,
    });
  }
}

export const withdrawRevision: Act<{ id: string }, { id: string }> = {
  operation: 'procedures.withdraw',
  run: async (work, { id }) => {
    const found = await lockRevision(work.tx, id);
    if (!found) return refuse('not-found', { thing: 'revision' });
    const decided = withdraw({ revision: revisionFacts(found.row), newest: found.newest, now: work.now.toISOString() });
    if (!decided.ok) return decided;
    await takeBack(work.tx, found.row, work.now, work.newId());
    await work.did('procedure-revision', id, { event: 'withdrawn', number: found.row.number });
    return accept({ id });
  },
};
