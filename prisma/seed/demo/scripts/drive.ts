// The way to the house, as the first of the pair notes it on arriving; and a look at all drives after some weeks.
import { greatCircleKm, PARKING_MINUTES, roadMinutes } from '@backsight/scheduling/travel';
import { findDriveVisit, originOf } from '@backsight/store/schedule/drives';
import { markDrive } from '@backsight/usecases/schedule/markDrive';
import { refitTravel } from '@backsight/usecases/schedule/refitTravel';
import { minutesAfter } from '../calendar.ts';
import { actorOf, byId } from '../people.ts';
import type { Scene, Stage } from '../stage.ts';
import type { PlayedJob } from './context.ts';

/** West of the lake the road goes around the shore: drives there take longer than the distance says. */
const SHORE_LON = -88.7;

/** Real over estimated: the roads of the county are slower than assumed, and no two drives are alike. */
const slower = (number: number, lon: number): number => 1.06 + ((number * 37) % 31) / 100 + (lon < SHORE_LON ? 0.35 : 0);

const HALF_DAY = 12 * 60;

export async function drivesThere(stage: Stage, { number, visitId, first, startsAt }: PlayedJob): Promise<void> {
  const visit = (await findDriveVisit(stage.reader, visitId))!;
  const from = await originOf(stage.reader, { visitId, personId: first, startsAt, dayStart: minutesAfter(startsAt, -HALF_DAY) });
  const km = greatCircleKm(from!, visit);
  const minutes = Math.round(PARKING_MINUTES + roadMinutes(km) * slower(number, visit.lon));
  const arrived = minutesAfter(stage.now(), -1);
  const mark = (kind: 'set_out' | 'arrived', at: Date) =>
    stage.act(actorOf(byId(first)), markDrive, { id: stage.newId(), visitId, personId: first, kind, at: at.toISOString() });
  await mark('set_out', minutesAfter(arrived, -minutes));
  await mark('arrived', arrived);
}

/** The service looks at the drives by itself; nobody has chosen the fitted speeds yet. */
export const looksAtDrives: Scene = async (stage) => {
  await stage.runner.run(refitTravel, { id: stage.newId() }, { actor: { kind: 'service' } });
};
