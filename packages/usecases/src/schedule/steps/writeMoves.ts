// Writes accepted moves: all people are exchanged at once, then every job, every need that hangs on the start, and the trail follow.
import type { KeptMove, Spot } from '@backsight/domain/schedule/plans';
import { instantOf } from '@backsight/domain/schedule/wallClock';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { lockJob, type Job } from '@backsight/store/jobs/jobs';
import { findObservers } from '@backsight/store/schedule/crew';
import { moveVisits, takeOff } from '@backsight/store/schedule/moveVisits';
import { findVisit, lockDays, type VisitRow } from '@backsight/store/schedule/visits';
import { askForTime } from '../../jobs/steps/askForTime.ts';
import { jobContext, noteJob } from '../../jobs/steps/loadJob.ts';
import type { Work } from '../../run.ts';
import { leaveBehind, type Along } from './leaveBehind.ts';

/** A move that was written: the visit as it was, and where it is now (null: taken off the calendar). */
export type Written = {
  move: KeptMove;
  was: VisitRow;
  to: { startsAt: Date; endsAt: Date; first: string; second: string | null } | null;
  /** Who came along, as far as still on the calendar. */
  along: Along;
};

/** From here on nobody books the people and kit of these moves, before and after. */
export async function lockMoves(work: Work, moves: readonly KeptMove[], kit: ReadonlyMap<string, readonly string[]>): Promise<void> {
  const spots = moves.flatMap(({ visitId, before, after }) =>
    [before, after].flatMap((spot) => (spot === null ? [] : [{ visitId, ...spot }])),
  );
  await lockDays(work.tx, {
    people: spots.flatMap(({ day, first, second }) => [first, second].flatMap((id) => (id === null ? [] : [{ id, day }]))),
    kit: spots.flatMap(({ visitId, day }) => (kit.get(visitId) ?? []).map((kind) => ({ kind, day }))),
  });
}

/** The moves must fit together and be locked. Refuses when a visit was changed at the last moment. */
export async function writeMoves(
  work: Work,
  moves: readonly KeptMove[],
  ask: { planId: string; zone: string },
): Promise<Outcome<Written[]>> {
  const jobs = new Map<string, Job>();
  for (const id of [...new Set(moves.map(({ jobId }) => jobId))].sort()) jobs.set(id, (await lockJob(work.tx, id))!);
  const written: Written[] = [];
  for (const move of moves) {
    const was = await findVisit(work.tx, move.visitId);
    if (!was) return refuse('changed-meanwhile');
    const to = move.after === null ? null : instants(was, move.after, ask.zone);
    if (to && !to.ok) return to;
    written.push({ move, was, to: to?.value ?? null, along: { stay: [], left: [] } });
  }
  for (const one of written) one.along = await alongAfter(work, one.was, one.to);
  const placed = written.flatMap(({ move, was, to }) =>
    to ? [{ id: was.id, version: move.version, ...to, because: { sentence: move.sentence, planId: ask.planId } }] : [],
  );
  const gone = written.filter(({ to }) => to === null);
  for (const { move } of gone) if (!(await takeOff(work.tx, move.visitId, move.version))) return refuse('changed-meanwhile');
  if ((await moveVisits(work.tx, placed)).length > 0) return refuse('changed-meanwhile');
  for (const one of written) await note(work, jobs.get(one.move.jobId)!, one, ask.planId);
  return accept(written);
}

/** Nobody comes along on a visit that is taken off. */
async function alongAfter(work: Work, was: VisitRow, to: Written['to']): Promise<Along> {
  if (to === null) return { stay: [], left: (await findObservers(work.tx, was.id)).map((one) => ({ ...one, text: '' })) };
  const context = await jobContext(work.tx, was.jobId, work.now);
  return context.ok ? leaveBehind(work, context.value, was.id, to) : { stay: [], left: [] };
}

function instants(was: VisitRow, { day, start, first, second }: Spot, zone: string): Outcome<NonNullable<Written['to']>> {
  const startsAt = instantOf(day, start, zone);
  if (!startsAt.ok) return startsAt;
  const endsAt = new Date(startsAt.value.getTime() + (was.endsAt.getTime() - was.startsAt.getTime()));
  return accept({ startsAt: startsAt.value, endsAt, first, second });
}

async function note(work: Work, job: Job, { was, to }: Written, planId: string): Promise<void> {
  if (was.kind === job.kind) await askForTime(work, job.id, was.startsAt, to?.startsAt ?? null);
  if (to === null) {
    await noteJob(work, job.id, job.state, { kind: 'taken_off', details: { visitId: was.id, planId } });
    await work.did('visit', was.id, { jobId: job.id, planId, takenOff: true, from: was.startsAt.toISOString() });
    return;
  }
  const { startsAt, first, second } = to;
  const event = { visitId: was.id, startsAt: startsAt.toISOString(), first, second };
  await noteJob(work, job.id, job.state, { kind: 'moved', details: event });
  await work.did('visit', was.id, { jobId: job.id, planId, from: was.startsAt.toISOString(), to: event.startsAt, first, second });
}
