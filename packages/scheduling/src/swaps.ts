// A piece of kit failed on site: who could bring another one, the nearest first.
import { carriers, crewKey, inService, piecesOf } from './kit.ts';
import type { Day, Minute } from './time.ts';
import type { Place, Travel } from './travel.ts';
import type { Busy, World } from './world.ts';

/** `spare`: from the office, by the people named; `carried`: by a crew that has one with it. */
export type Swap = { from: 'spare' | 'carried'; personIds: string[]; minutes: Minute; freeFrom: Minute; freeUntil: Minute | null };

/** `pool`: the kind of kit, or its size or length. */
export type SwapAsk = { day: Day; minute: Minute; pool: string; place: Place; crew: readonly string[]; store: Place };

const MOST = 8;

/** What a person or crew does around the minute: busy until when, and what comes next. */
function around(visits: readonly Busy[], minute: Minute): { now: Busy | undefined; last: Busy | undefined; next: Busy | undefined } {
  const sorted = [...visits].sort((a, b) => a.start - b.start);
  return {
    now: sorted.find(({ start, end }) => start <= minute && minute < end),
    last: sorted.findLast(({ end }) => end <= minute),
    next: sorted.find(({ start }) => start > minute),
  };
}

/** Crews that carry the kind today and need it no more, or not until they are back. */
function carried(world: World, visits: readonly Busy[], ask: SwapAsk, travel: Travel): Swap[] {
  const needs = ({ kit, personIds }: Busy) => piecesOf(world, kit, personIds).some(({ pool }) => pool === ask.pool);
  const crews = new Map<string, Busy[]>();
  for (const visit of visits) {
    const key = crewKey(visit.personIds);
    if (key !== crewKey(ask.crew)) crews.set(key, [...(crews.get(key) ?? []), visit]);
  }
  return [...crews.values()].flatMap((own): Swap[] => {
    if (!own.some(needs)) return [];
    const { now, last, next } = around(own, ask.minute);
    const place = (now ?? last ?? next)!.place;
    const freeFrom = now && needs(now) ? now.end : ask.minute;
    const later = own.filter((visit) => visit.start >= freeFrom && needs(visit)).map(({ start }) => start);
    return [
      {
        from: 'carried',
        personIds: own[0]!.personIds,
        minutes: travel.minutes(place, ask.place),
        freeFrom,
        freeUntil: later.length > 0 ? Math.min(...later) : null,
      },
    ];
  });
}

/** People at work and not at a visit, who could fetch a spare piece. */
function free(world: World, visits: readonly Busy[], ask: SwapAsk, travel: Travel): Swap[] {
  return world.people
    .filter(({ id, shifts, off }) => {
      const at = (span: { day: Day; start: Minute; end: Minute }) =>
        span.day === ask.day && span.start <= ask.minute && ask.minute < span.end;
      return !ask.crew.includes(id) && shifts.some(at) && !off.some(at);
    })
    .flatMap((person): Swap[] => {
      const own = visits.filter(({ personIds, observerIds }) => personIds.includes(person.id) || (observerIds ?? []).includes(person.id));
      const { now, last, next } = around(own, ask.minute);
      if (now) return [];
      const way = travel.minutes(last?.place ?? person.base, ask.store) + travel.minutes(ask.store, ask.place);
      return [{ from: 'spare', personIds: [person.id], minutes: way, freeFrom: ask.minute, freeUntil: next?.start ?? null }];
    });
}

/** Proposals for the rest of the day, soonest at the site first. Spare pieces count only while more are in service than crews carry. */
export function proposeSwaps(world: World, ask: SwapAsk, travel: Travel): Swap[] {
  const visits = world.busy.filter(({ day }) => day === ask.day);
  const holders = carriers(world, visits, ask.pool);
  for (const holder of [crewKey(ask.crew), ...ask.crew]) holders.delete(holder);
  const spare = inService(world, ask.pool, ask.day) - holders.size;
  const all = [...carried(world, visits, ask, travel), ...(spare > 0 ? free(world, visits, ask, travel) : [])];
  return all
    .toSorted((a, b) => a.freeFrom + a.minutes - (b.freeFrom + b.minutes) || (a.personIds[0]! < b.personIds[0]! ? -1 : 1))
    .slice(0, MOST);
}
