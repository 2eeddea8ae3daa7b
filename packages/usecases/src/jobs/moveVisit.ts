// Moves a visit to another start, or adds a further one, under the same rules as the first.
import { mayAddVisit, mayMove } from '@backsight/domain/jobs/decide';
import type { JobState } from '@backsight/domain/jobs/words';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { lockJob, type Job } from '@backsight/store/jobs/jobs';
import { findVisit, updateVisit, type VisitRow } from '@backsight/store/schedule/visits';
import type { Act, Work } from '../run.ts';
import { partsOf, placeVisit } from '../schedule/steps/placeVisit.ts';
import { leaveBehind } from '../schedule/steps/leaveBehind.ts';
import { reserveStart, type Reserved, type Start } from '../schedule/steps/reserveStart.ts';
import { askForTime } from './steps/askForTime.ts';
import { lateFeeOf, unsaidWaiver, type Waiver } from './steps/lateFee.ts';
import { asShown, chargeMove, feeAt, type FeeWish, type MoveCost } from './steps/moveFee.ts';
import { signedBy } from './steps/signedBy.ts';
import { notTooEarly } from './steps/earliest.ts';
import { tellAdded } from './steps/tellAdded.ts';
import { tellOfMove } from './steps/tellOfMove.ts';
import { demandFor, jobContext, noteJob } from './steps/loadJob.ts';

export type MoveInput = Waiver & FeeWish & { id: string; version: number; start: Start; publicUrl: string };
export type Moved = { id: string; version: number; startsAt: string; endsAt: string; warnings: Warning[] };

/** The price follows the new time, unless the fee is kept as agreed with a reason. Refusals: those of a start, waiver-reason, fee-kept-reason, fee-at-new-time. */
export const moveVisit: Act<MoveInput, Moved> = { operation: 'schedule.move', run: move };

async function move(work: Work, input: MoveInput): Promise<Outcome<Moved>> {
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
  const written = await write(work, job, visit, reserved.value);
  if (!written.ok) return written;
  const cost = fee.value ? await chargeMove(work, { job, visit, fee: fee.value, late, wish: input }) : accept(NO_COST);
  if (!cost.ok) return cost;
  const { words, feeChanged } = cost.value;
  const told = job.state === 'held' ? [] : await tellOfMove(work, visit, reserved.value, input.publicUrl, { fee: words, feeChanged });
  const warnings = [...left, ...cost.value.warnings, ...told];
  return accept({ ...written.value, warnings }, warnings);
}

const NO_COST: MoveCost = { words: null, feeChanged: false, warnings: [] };

/** What a move to a start would make of the fee, and what moving so late costs besides; changes nothing. */
export async function previewMove(reader: Reader, now: Date, { id, startsAt }: { id: string; startsAt: string }) {
  const visit = await findVisit(reader, id);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  const context = await jobContext(reader, visit.jobId, now);
  if (!context.ok) return context;
  const { job } = context.value;
  const main = visit.kind === job.kind;
  const found = await feeAt(reader, context.value, main ? new Date(startsAt) : visit.startsAt, now);
  if (!found.ok) return found;
  const late = main ? await lateFeeOf(reader, job, { startsAt: visit.startsAt, now }, 'move') : null;
  const { beforeCents, afterCents, changes } = found.value;
  const signed = await signedBy(reader, job.id);
  return accept(
    main
      ? { beforeCents, afterCents, fee: changes, lateCents: late?.cents ?? 0, signed }
      : { beforeCents, afterCents: beforeCents, fee: [], lateCents: 0, signed },
  );
}

const movable = (job: Job, visit: VisitRow): Outcome<null> => {
  if (visit.state !== 'held' && visit.state !== 'booked') return refuse('visit-is', { state: visit.state.replaceAll('_', ' ') });
  return visit.kind === 'inspection' ? mayMove(job.state) : mayAddVisit(job.state);
};

async function write(work: Work, job: Job, visit: VisitRow, to: Reserved): Promise<Outcome<Moved>> {
  const { startsAt, endsAt, first, second, because } = to;
  if (
    !(await updateVisit(work.tx, visit.id, visit.version, {
      state: visit.state,
      holdEndsAt: visit.holdEndsAt,
      startsAt,
      endsAt,
      first,
      second,
      because,
      outside: partsOf(to),
    }))
  )
    return refuse('changed-meanwhile');
  if (visit.kind === job.kind) await askForTime(work, job.id, visit.startsAt, startsAt);
  const event = { visitId: visit.id, startsAt: startsAt.toISOString(), first, second };
  await noteJob(work, job.id, job.state, { kind: 'moved', details: event });
  await work.did('visit', visit.id, { jobId: job.id, from: visit.startsAt.toISOString(), to: event.startsAt, first, second });
  return accept({ id: visit.id, version: visit.version + 1, startsAt: event.startsAt, endsAt: endsAt.toISOString(), warnings: [] });
}

export type AddVisitInput = { jobId: string; kind: string; start: Start };

export const addVisit: Act<AddVisitInput, { id: string; startsAt: string; endsAt: string }> = { operation: 'schedule.add-visit', run: add };

/** A further visit: radon pick-up, exterior re-look, a second try after nobody opened. */
async function add(work: Work, { jobId, kind, start }: AddVisitInput): Promise<Outcome<{ id: string; startsAt: string; endsAt: string }>> {
  const context = await jobContext(work.tx, jobId, work.now);
  if (!context.ok) return context;
  const early = await notTooEarly(work, { jobId, kind, startsAt: start.startsAt, zone: context.value.catalog.office.zone });
  if (!early.ok) return early;
  const demand = demandFor(context.value, kind, new Date(start.startsAt));
  if (!demand.ok) return demand;
  const placed = await placeVisit(work, { jobId, office: context.value.catalog.office, demand: demand.value, start, holdEndsAt: null });
  if (!placed.ok) return placed;
  const job = (await lockJob(work.tx, jobId))!;
  const allowed = mayAddVisit(job.state);
  if (!allowed.ok) return allowed;
  const { visitId, startsAt, endsAt, first, second } = placed.value;
  await noteJob(work, jobId, job.state satisfies JobState, { kind: 'visit_added', details: { visitId, startsAt, first, second } });
  if (job.state !== 'held') await tellAdded(work, jobId, { key: `added:${visitId}`, kind, visit: placed.value });
  await work.did('visit', visitId, { jobId, kind, startsAt, first, second });
  return accept({ id: visitId, startsAt, endsAt });
}
