// What a move of a visit would come to, shown before it is made: the move itself, run and rolled back, with what it would change around it.
import { NEED_KINDS } from '@backsight/domain/jobs/words';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import { accept, refuse, type Outcome, type Refusal } from '@backsight/domain/shared/outcome';
import { dayLoad } from '@backsight/scheduling/dayLoad';
import { addDays } from '@backsight/scheduling/time';
import { travelOf } from '@backsight/scheduling/travelModel';
import type { Busy, World } from '@backsight/scheduling/world';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import { findOpenNeeds } from '@backsight/store/jobs/jobs';
import type { NewMail } from '@backsight/store/mail';
import { findKept, type KeptRow } from '@backsight/store/schedule/moveVisits';
import { findVisit, type VisitRow } from '@backsight/store/schedule/visits';
import type { Act, Work } from '../run.ts';
import { loadWorld } from '../schedule/steps/loadWorld.ts';
import { jobContext, type JobContext } from './steps/loadJob.ts';
import { costOfMove, move, type MoveChange, type Moved, type MoveInput } from './steps/move.ts';

type Mail = Omit<NewMail, 'id' | 'at'>;
type Facts = {
  visit: VisitRow;
  context: JobContext;
  kept: KeptRow;
  world: World;
  open: string[];
  /** Null for a visit that is not the one the job is for, or where no price is found. */
  fee: { change: MoveChange; late: string | null } | null;
};

/** To be run by the runner's `rehearse`: alone it would make the move. Refusals of the move are its answer, not its own. */
export const rehearseMove: Act<MoveInput, Awaited<ReturnType<typeof consequences>>> = {
  operation: 'schedule.move',
  run: async (work, input) => {
    const facts = await factsOf(work, input);
    if (!facts.ok) return facts;
    const mails: Mail[] = [];
    const mail: Work['mail'] = async (one) => {
      mails.push(one);
      await work.mail(one);
    };
    const moved = await move({ ...work, mail }, input);
    return accept(await consequences(work, input, { ...facts.value, moved, mails }));
  },
};

async function factsOf(work: Work, { id, start }: MoveInput): Promise<Outcome<Facts>> {
  const visit = await findVisit(work.tx, id);
  const kept = await findKept(work.tx, id);
  if (!visit || !kept) return refuse('not-found', { thing: 'visit' });
  const context = await jobContext(work.tx, visit.jobId, work.now);
  if (!context.ok) return context;
  const { id: officeId, zone } = context.value.catalog.office;
  const [from, to] = [visit.startsAt, new Date(start.startsAt)].map((at) => wallTime(at, zone).day).sort();
  // Longer than a season apart is no move that anybody weighs: only the day that it leaves is looked at then.
  const world = await loadWorld(work.tx, { from: from!, to: to! < addDays(from!, 120) ? to! : from!, now: work.now, officeId, zone });
  const cost = await costOfMove(work.tx, work.now, { context: context.value, visit, startsAt: new Date(start.startsAt) });
  const fee = cost.ok && visit.kind === context.value.job.kind ? cost.value : null;
  return accept({ visit, context: context.value, kept, world, open: await findOpenNeeds(work.tx, visit.jobId), fee });
}

async function consequences(work: Work, { start }: MoveInput, f: Facts & { moved: Outcome<Moved>; mails: readonly Mail[] }) {
  const { visit, context, kept, moved, mails } = f;
  const endsAt = moved.ok ? moved.value.endsAt : new Date(Date.parse(start.startsAt) + minutesOf(visit) * 60_000).toISOString();
  const booked = context.job.state !== 'held';
  const asked = moved.ok ? (await findOpenNeeds(work.tx, visit.jobId)).filter((kind) => !f.open.includes(kind)) : [];
  return {
    refused: moved.ok ? null : (moved satisfies Refusal),
    warnings: moved.ok ? moved.value.warnings : [],
    fee: f.fee?.change ?? null,
    lateBecause: f.fee?.late ?? null,
    promise: promiseOf(kept, start.startsAt, booked),
    objection: objectionOf(context, endsAt),
    lockedBecause: kept.lockedBecause,
    people: loadsOf(f, { ...start, endsAt }),
    told: mails.map(({ toName, subject, kind }) => ({ name: toName, subject, outside: kind !== undefined })),
    calls: booked ? await callsOf(work, context) : [],
    askedAgain: asked.map((kind) => NEED_KINDS[kind]),
  };
}

const minutesOf = ({ startsAt, endsAt }: VisitRow): number => (endsAt.getTime() - startsAt.getTime()) / 60_000;

/** Without a window the client was told the very start. */
function promiseOf({ startsAt, promisedFrom, promisedUntil }: KeptRow, to: string, told: boolean) {
  const at = new Date(to);
  const from = promisedFrom ?? startsAt;
  const kept = promisedUntil ? at >= from && at <= promisedUntil : at.getTime() === from.getTime();
  return { told, from: from.toISOString(), until: promisedUntil?.toISOString() ?? null, kept };
}

function objectionOf({ job: { objectionOn: day }, catalog }: JobContext, endsAt: string) {
  if (day === null) return null;
  const ends = wallTime(new Date(endsAt), catalog.office.zone).day;
  return { day, kept: addDays(ends, catalog.firm.reportDueDays) <= day };
}

type To = { startsAt: string; endsAt: string; first: string; second: string | null };

/** The days of everybody who goes or went, before and after. */
function loadsOf({ world, visit, context }: Facts, to: To) {
  const { zone } = context.catalog.office;
  const [at, end] = [wallTime(new Date(to.startsAt), zone), wallTime(new Date(to.endsAt), zone)];
  const was = world.busy.find(({ id }) => id === visit.id);
  const rest = world.busy.filter(({ id }) => id !== visit.id);
  const crew = [to.first, to.second].filter((id) => id !== null);
  const { place, observerIds = [] } = was ?? { place: context.place };
  const now: Busy = { id: visit.id, personIds: crew, observerIds, day: at.day, start: at.minute, end: end.minute, place, kit: visit.kit };
  const after = { ...world, busy: [...rest, now] };
  const days = [...new Set([...(was ? [was.day] : []), at.day])].sort();
  const ids = [...new Set([...(was?.personIds ?? []), ...crew, ...observerIds])];
  const travel = travelOf(world.travel);
  return world.people
    .filter(({ id }) => ids.includes(id))
    .flatMap((person) =>
      days.map((day) => ({
        id: person.id,
        name: person.name,
        day,
        before: dayLoad(world, person, day, travel),
        after: dayLoad(after, person, day, travel),
      })),
    )
    .filter(({ before, after: then }) => before.visits + then.visits > 0);
}

/** Clients without an address, and outside providers: no mail goes to them. */
async function callsOf(work: Work, { job, providers, catalog }: JobContext): Promise<{ name: string; why: string }[]> {
  const parties = (await findJobForAgreement(work.tx, job.id))?.parties ?? [];
  const clients = parties.filter(({ role, email }) => role === 'client' && email === null);
  const names = catalog.providers.filter(({ id }) => providers.some(({ providerId }) => providerId === id)).map(({ name }) => name);
  return [
    ...clients.map(({ name }) => ({ name, why: 'client without an e-mail address' })),
    ...names.map((name) => ({ name, why: 'comes to this job too' })),
  ];
}
