// The move of a visit to another start, for the act and for its rehearsal alike.
import { mayAddVisit, mayMove } from '@backsight/domain/jobs/decide';
import type { LineChange } from '@backsight/domain/jobs/difference';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { lockJob, type Job } from '@backsight/store/jobs/jobs';
import { findVisit, updateVisit, type VisitRow } from '@backsight/store/schedule/visits';
import { keepText } from '@backsight/store/text';
import type { Work } from '../../run.ts';
import { leaveBehind } from '../../schedule/steps/leaveBehind.ts';
import { partsOf } from '../../schedule/steps/placeVisit.ts';
import { reserveStart, type Reserved, type Start } from '../../schedule/steps/reserveStart.ts';
import { askForTime } from './askForTime.ts';
import { notTooEarly } from './earliest.ts';
import { lateFeeOf, unsaidWaiver, type Waiver } from './lateFee.ts';
import { demandFor, jobContext, noteJob, type JobContext } from './loadJob.ts';
import { asShown, chargeMove, feeAt, type FeeWish, type MoveCost } from './moveFee.ts';
import { signedBy } from './signedBy.ts';
import { tellOfMove } from './tellOfMove.ts';

export type MoveInput = Waiver & FeeWish & { id: string; version: number; start: Start; why?: string | undefined; publicUrl: string };
export type Moved = { id: string; version: number; startsAt: string; endsAt: string; warnings: Warning[] };

/** The price follows the new time, unless the fee is kept as agreed with a reason. Refusals: those of a start, waiver-reason, fee-kept-reason, fee-at-new-time. */
export async function move(work: Work, input: MoveInput): Promise<Outcome<Moved>> {
  const visit = await findVisit(work.tx, input.id);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  if (visit.version !== input.version) return refuse('changed-meanwhile');
  const context = await jobContext(work.tx, visit.jobId, work.now);
  if (!context.ok) return context;
  const { zone } = context.value.catalog.office;
  const early = await notTooEarly(work, { jobId: visit.jobId, kind: visit.kind, startsAt: input.start.startsAt, zone });
  if (!early.ok) return early;
  const demand = demandFor(context.value, visit.kind, new Date(input.start.startsAt));
  if (!demand.ok) return demand;
  const reserved = await reserveStart(work, {
    office: context.value.catalog.office,
    demand: { ...demand.value, kit: visit.kit },
    start: input.start,
    moving: visit,
  });
  if (!reserved.ok) return reserved;
  const job = (await lockJob(work.tx, visit.jobId))!;
  const allowed = movable(job, visit);
  if (!allowed.ok) return allowed;
  const main = visit.kind === job.kind;
  const late = main ? await lateFeeOf(work.tx, job, { startsAt: visit.startsAt, now: work.now }, 'move') : null;
  const unsaid = unsaidWaiver(late, input);
  if (unsaid) return unsaid;
  const fee = main ? await feeAt(work.tx, context.value, reserved.value.startsAt, work.now) : accept(null);
  if (!fee.ok) return fee;
  const shown = fee.value ? asShown(fee.value, input) : accept(null);
  if (!shown.ok) return shown;
  const along = await leaveBehind(work, context.value, visit.id, reserved.value);
  const left = along.left.map(({ text }) => ({ code: 'observer-left', text }));
  const written = await write(work, job, visit, reserved.value, input.why ?? '');
  if (!written.ok) return written;
  const cost = fee.value ? await chargeMove(work, { job, visit, fee: fee.value, late, wish: input }) : accept(NO_COST);
  if (!cost.ok) return cost;
  const { words, feeChanged } = cost.value;
  const told = job.state === 'held' ? [] : await tellOfMove(work, visit, reserved.value, input.publicUrl, { fee: words, feeChanged });
  const warnings = [...left, ...cost.value.warnings, ...told];
  return accept({ ...written.value, warnings }, warnings);
}

const NO_COST: MoveCost = { words: null, feeChanged: false, warnings: [] };

export type MoveChange = { beforeCents: number; afterCents: number; fee: LineChange[]; lateCents: number; signed: boolean };

/** The fee before and after a move, and the charge for moving late, in cents; only of the visit that the job is for. `late` says why. */
export async function costOfMove(
  reader: Reader,
  now: Date,
  { context, visit, startsAt }: { context: JobContext; visit: VisitRow; startsAt: Date },
) {
  const { job } = context;
  const main = visit.kind === job.kind;
  const found = await feeAt(reader, context, main ? startsAt : visit.startsAt, now);
  if (!found.ok) return found;
  const late = main ? await lateFeeOf(reader, job, { startsAt: visit.startsAt, now }, 'move') : null;
  const { beforeCents, afterCents, changes } = found.value;
  const signed = await signedBy(reader, job.id);
  const change: MoveChange = main
    ? { beforeCents, afterCents, fee: changes, lateCents: late?.cents ?? 0, signed }
    : { beforeCents, afterCents: beforeCents, fee: [], lateCents: 0, signed };
  return accept({ change, late: late?.because ?? null });
}

const movable = (job: Job, visit: VisitRow): Outcome<null> => {
  if (visit.state !== 'held' && visit.state !== 'booked') return refuse('visit-is', { state: visit.state.replaceAll('_', ' ') });
  return visit.kind === 'inspection' ? mayMove(job.state) : mayAddVisit(job.state);
};

/** `why` is kept beside the event, for the firm only. */
async function write(work: Work, job: Job, visit: VisitRow, to: Reserved, why: string): Promise<Outcome<Moved>> {
  const { startsAt, endsAt, first, second, because } = to;
  if (
    !(await updateVisit(work.tx, visit.id, visit.version, {
      state: visit.state,
      holdEndsAt: visit.holdEndsAt,
      startsAt,
      endsAt,
      first,
      second,
      because: because(),
      outside: partsOf(to),
    }))
  )
    return refuse('changed-meanwhile');
  if (visit.kind === job.kind) await askForTime(work, job.id, visit.startsAt, startsAt);
  const event = { visitId: visit.id, startsAt: startsAt.toISOString(), first, second };
  const textId = why.trim() === '' ? undefined : await keepText(work.tx, work.newId(), why.trim(), work.now);
  await noteJob(work, job.id, job.state, { kind: 'moved', details: event }, textId);
  await work.did('visit', visit.id, { jobId: job.id, from: visit.startsAt.toISOString(), to: event.startsAt, first, second });
  return accept({ id: visit.id, version: visit.version + 1, startsAt: event.startsAt, endsAt: endsAt.toISOString(), warnings: [] });
}
