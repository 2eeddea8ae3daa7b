// Sets the exact place of a property by hand. Visits that are booked stay booked; the reply names those that no longer fit.
import { wallTime } from '@backsight/domain/schedule/wallClock';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { checkStart } from '@backsight/scheduling/checkStart';
import { sayDay } from '@backsight/scheduling/time';
import { greatCircleKm } from '@backsight/scheduling/travel';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { findProperty, setExactPlace } from '@backsight/store/jobs/properties';
import { findComingVisits, type VisitRow } from '@backsight/store/schedule/visits';
import type { Act, Work } from '../run.ts';
import { queryOf } from '../schedule/steps/demand.ts';
import { loadWorld } from '../schedule/steps/loadWorld.ts';
import { isNowhere } from '../schedule/steps/places.ts';
import { demandFor, jobContext } from './steps/loadJob.ts';

/** Farther from the office than this, a typing error is likelier than a house that the firm goes to. */
const FAR_KM = 100;

export type SetPlaceInput = { id: string; version: number; lat: number; lon: number };
type Placed = { id: string; version: number; warnings: Warning[] };

export const setPlace: Act<SetPlaceInput, Placed> = { operation: 'jobs.set-place', run: set };

async function set(work: Work, { id, version, lat, lon }: SetPlaceInput): Promise<Outcome<Placed>> {
  const property = await findProperty(work.tx, id);
  if (!property) return refuse('not-found', { thing: 'property' });
  if (isNowhere({ lat, lon })) return refuse('place-zero', {}, 'lat');
  if (property.placeBy === 'exact' && property.lat === lat && property.lon === lon) return refuse('nothing-changed', {}, 'lat');
  if (!(await setExactPlace(work.tx, id, version, { lat, lon }))) return refuse('changed-meanwhile');
  const { placeBy } = property;
  await work.did('property', id, { placed: 'exact', placedBefore: placeBy });
  const warnings = [...(await farWarning(work, { lat, lon })), ...(await hitVisits(work, id))];
  return accept({ id, version: version + 1, warnings }, warnings);
}

async function farWarning(work: Work, place: { lat: number; lon: number }): Promise<Warning[]> {
  const office = (await findCatalog(work.tx, work.now))?.office;
  const km = office ? greatCircleKm(office, place) : 0;
  if (km <= FAR_KM) return [];
  return [
    { code: 'place-far', text: `This place is ${Math.round(km)} km from the office. Latitude first, then longitude, west is negative.` },
  ];
}

/** Coming visits to the property, checked against every rule from the new place. */
async function hitVisits(work: Work, propertyId: string): Promise<Warning[]> {
  const warnings: Warning[] = [];
  for (const visit of await findComingVisits(work.tx, propertyId, work.now)) {
    const broken = await brokenRules(work, visit);
    if (broken) warnings.push({ code: 'visit-hit', text: broken });
  }
  return warnings;
}

async function brokenRules(work: Work, visit: VisitRow): Promise<string | null> {
  const context = await jobContext(work.tx, visit.jobId, work.now);
  if (!context.ok) return null;
  const { office } = context.value.catalog;
  const demand = demandFor(context.value, visit.kind, visit.startsAt);
  if (!demand.ok) return null;
  const { day, minute } = wallTime(visit.startsAt, office.zone);
  const place = demand.value.place;
  const world = await loadWorld(work.tx, { from: day, to: day, now: work.now, officeId: office.id, zone: office.zone, place });
  const minutes = (visit.endsAt.getTime() - visit.startsAt.getTime()) / 60_000;
  const query = queryOf(office, { ...demand.value, minutes, kit: visit.kit }, { days: [day], now: work.now, limit: 1 });
  const broken = checkStart({ ...world, busy: world.busy.filter(({ id }) => id !== visit.id) }, query, {
    day,
    start: minute,
    first: visit.first,
    second: visit.second,
  });
  if (broken.length === 0) return null;
  return `The visit of job ${context.value.job.number} on ${sayDay(day)} stays booked but no longer fits: ${broken.map(({ sentence }) => sentence).join(' ')}`;
}
