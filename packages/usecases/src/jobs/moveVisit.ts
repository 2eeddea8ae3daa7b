// Moves a visit to another start, or adds a further one, under the same rules as the first.
import { mayAddVisit, mayMove } from '@backsight/domain/jobs/decide';
import { needDue } from '@backsight/domain/jobs/needs';
import type { JobState } from '@backsight/domain/jobs/words';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { formatUsd } from '@backsight/domain/shared/money';
import { findOpenNeeds, lockJob, setNeedDue, type Job } from '@backsight/store/jobs/jobs';
import { keepText } from '@backsight/store/text';
import { findVisit, updateVisit, type VisitRow } from '@backsight/store/schedule/visits';
import { invoiceTheFee } from '../fees/steps/carryOver.ts';
import type { Act, Work } from '../run.ts';
import { partsOf, placeVisit } from '../schedule/steps/placeVisit.ts';
import { leaveBehind } from '../schedule/steps/leaveBehind.ts';
import { reserveStart, type Reserved, type Start } from '../schedule/steps/reserveStart.ts';
import { replaceLines } from './steps/feeLines.ts';
import { lateFeeOf, unsaidWaiver, type LateFee, type Waiver } from './steps/lateFee.ts';
import { notTooEarly } from './steps/earliest.ts';
import { tellOfMove } from './steps/tellOfMove.ts';
import { demandFor, jobContext, noteJob } from './steps/loadJob.ts';

export type MoveInput = Waiver & { id: string; version: number; start: Start; publicUrl: string };
export type Moved = { id: string; version: number; startsAt: string; endsAt: string; warnings: Warning[] };

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
  const fee = main ? await lateFeeOf(work.tx, job, { startsAt: visit.startsAt, now: work.now }, 'move') : null;
  const unsaid = unsaidWaiver(fee, input);
  if (unsaid) return unsaid;
  const along = await leaveBehind(work, context.value, visit.id, reserved.value);
  const left = along.left.map(({ text }) => ({ code: 'observer-left', text }));
  const written = await write(work, job, visit, reserved.value);
  if (!written.ok) return written;
  if (job.state === 'held') return accept({ ...written.value, warnings: left }, left);
  const cost = fee ? await chargeMove(work, visit, fee, input) : accept(null);
  if (!cost.ok) return cost;
  const told = await tellOfMove(work, visit, reserved.value, input.publicUrl, cost.value);
  const warnings = [...left, ...told];
  return accept({ ...written.value, warnings }, warnings);
}

/** A late move is charged by the rule unless it is waived; answers what the client is told of it. */
async function chargeMove(work: Work, visit: VisitRow, fee: LateFee, { waive, waiver }: Waiver): Promise<Outcome<string | null>> {
  const details = {
    what: 'moved_late',
    percent: fee.percent,
    cents: waive ? 0 : fee.cents,
    waived: waive ?? false,
    waivedCents: waive ? fee.cents : 0,
  };
  const textId = waive ? await keepText(work.tx, work.newId(), waiver!, work.now) : undefined;
  await noteJob(work, visit.jobId, 'booked', { kind: 'fee_decided', details }, textId);
  if (waive) return accept(null);
  const reason = fee.because;
  const line = { rule: `moved-${visit.id}-${visit.version}`, label: 'Moved late', reason, cents: fee.cents };
  await replaceLines(work, visit.jobId, [...fee.lines, line]);
  const invoiced = await invoiceTheFee(work, visit.jobId);
  return invoiced.ok
    ? accept(`It was moved less than ${fee.hours} hours before, so ${formatUsd(fee.cents)} is charged besides the fee.`)
    : invoiced;
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
  const open = visit.kind === 'inspection' ? await findOpenNeeds(work.tx, job.id) : [];
  for (const kind of open) await setNeedDue(work.tx, job.id, kind, needDue(kind, startsAt, work.now));
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
  await work.did('visit', visitId, { jobId, kind, startsAt, first, second });
  return accept({ id: visitId, startsAt, endsAt });
}
