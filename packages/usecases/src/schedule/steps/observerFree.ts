// Whether somebody could come along on a visit: his hours, his way there and back, and where else he is.
import { wallTime } from '@backsight/domain/schedule/wallClock';
import { checkObserver } from '@backsight/scheduling/checkStart';
import type { Work } from '../../run.ts';
import type { JobContext } from '../../jobs/steps/loadJob.ts';
import type { Demand } from './demand.ts';
import { queryOf } from './demand.ts';
import { loadWorld, without } from './loadWorld.ts';

type Times = { id: string; startsAt: Date; endsAt: Date };

/** What keeps the person away, in sentences; null when nothing does. `visit.id` stands in nobody's way. */
export async function observerProblem(
  work: Work,
  { catalog: { office }, job, place, partyIds }: JobContext,
  visit: Times,
  personId: string,
): Promise<string | null> {
  const { day, minute: start } = wallTime(visit.startsAt, office.zone);
  const minutes = (visit.endsAt.getTime() - visit.startsAt.getTime()) / 60_000;
  const world = await loadWorld(work.tx, { from: day, to: day, now: work.now, officeId: office.id, zone: office.zone, place });
  const bare: Demand = {
    kind: '',
    crewSize: 1,
    minutes,
    reportMinutes: 0,
    place,
    needEach: [],
    needAny: [],
    kit: [],
    involves: [job.propertyId, ...partyIds],
  };
  const query = queryOf(office, bare, { days: [day], now: work.now, limit: 1 });
  const broken = checkObserver(without(world, visit.id), query, { day, start }, personId);
  return broken.length === 0 ? null : broken.map(({ sentence }) => sentence).join(' ');
}
