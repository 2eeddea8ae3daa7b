// What is to decide about a job whose visit did not go as booked.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import type { FeeLine } from '@backsight/domain/fees/schedule';
import { chargeOf } from '@backsight/domain/shared/charge';
import { feeAfterRebooking } from '@backsight/domain/sitework/ending';
import type { Reader } from '@backsight/store/database';
import { invoicesOfJob } from '@backsight/store/fees';
import { findAttendance } from '@backsight/store/jobs/attendance';
import { findAccess } from '@backsight/store/jobs/access';
import { looksOfJob } from '@backsight/store/jobs/laterLooks';
import { findFeeLines, findJob, findOpenNeeds } from '@backsight/store/jobs/jobs';
import { findVisitsOfJob } from '@backsight/store/schedule/visits';
import { endingsOfJob, type EndingRow } from '@backsight/store/sitework/ending';
import { awaitedOfJob, laterVisitsOf } from '@backsight/store/sitework/testItems';
import { earlierLine, feeOf } from './steps/feeLines.ts';
import type { Actor } from '../run.ts';
import { mayCallPeople } from './steps/mayCallPeople.ts';
import { lateFeeOf } from './steps/lateFee.ts';
import { deskRulesOf } from './steps/deskRules.ts';

/** What the job costs once it is booked again: the fee besides what was charged, or the one fee for both visits; in cents. */
function againTotals(lines: readonly FeeLine[], ending: EndingRow) {
  const total = (again: boolean) => feeOf(feeAfterRebooking(lines, earlierLine(ending), feeOf(lines), again));
  return { againCents: total(true), onceCents: total(false) };
}

export async function readDesk(reader: Reader, { id, actor, now }: { id: string; actor: Actor; now: Date }) {
  const job = await findJob(reader, id);
  if (!job) return refuse('not-found', { thing: 'job' });
  const rules = await deskRulesOf(reader, job);
  const endings = await endingsOfJob(reader, id);
  const open = await findOpenNeeds(reader, id);
  const lines = await findFeeLines(reader, id);
  const fee = feeOf(lines);
  const newest = endings[0];
  const paidCents = (await invoicesOfJob(reader, id)).reduce((sum, one) => sum + one.paidCents, 0);
  const attendance = (await findAttendance(reader, id))!;
  const next = (await findVisitsOfJob(reader, id)).find(({ state, kind }) => state === 'booked' && kind === job.kind);
  const lateCharge = async (what: 'move' | 'cancel') => {
    const found = next ? await lateFeeOf(reader, job, { startsAt: next.startsAt, now }, what) : null;
    return (
      found && {
        percent: found.percent,
        feeCents: found.feeCents,
        cents: found.cents,
        hours: found.hours,
        because: found.because,
        paidCents,
      }
    );
  };
  const access = await findAccess(reader, id);
  const reached = await mayCallPeople(reader, id, { actor, now });
  const { opener = '', pets = '', hasKeyBox = false, hasAlarm = false } = access ?? {};
  return accept({
    endings: endings.map(({ jobId: _, recordedAt: __, photoSha256, ...e }) => ({
      ...e,
      hasPhoto: photoSha256 !== null,
      startsAt: e.startsAt.toISOString(),
      endedAt: e.endedAt.toISOString(),
    })),
    endingFee: newest && open.includes('ending_fee') ? { ...chargeOf(fee, rules.endings[newest.kind]), paidCents } : null,
    reportOwedOpen: open.includes('report_owed'),
    bookAgain: job.state === 'ended' && newest ? { chargedCents: fee, ...againTotals(lines, newest) } : null,
    laterVisits: (await laterVisitsOf(reader, id)).map((v) => ({ ...v, from: v.from?.toISOString() ?? null })),
    attendance: { attendees: attendance.attendees, arrives: attendance.arrives, arriveAt: attendance.arriveAt?.toISOString() ?? null },
    lateMove: await lateCharge('move'),
    lateCancel: await lateCharge('cancel'),
    laterLooks: (await looksOfJob(reader, id)).map(({ key: _, jobId: __, visitId: ___, ...look }) => look),
    access: access && {
      opener,
      phone: reached ? access.phone : '',
      pets,
      hasKeyBox,
      hasAlarm,
      opensAt: access.opensAt?.toISOString() ?? null,
    },
    awaited: (await awaitedOfJob(reader, id)).map(({ what, serial }) => `${what} (${serial})`),
  });
}
