// A piece failed on site: who could bring another one, by where people are today and what they carry.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import { wornPool } from '@backsight/scheduling/kit';
import type { KitPool } from '@backsight/scheduling/world';
import { sayTime } from '@backsight/scheduling/time';
import { proposeSwaps, type Swap } from '@backsight/scheduling/swaps';
import { travelOf } from '@backsight/scheduling/travelModel';
import type { Reader } from '@backsight/store/database';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { findKitItem } from '@backsight/store/people/kit';
import { listPeople } from '@backsight/store/people';
import { findVisit } from '@backsight/store/schedule/visits';
import { onlyOwn } from '../jobs/steps/onlyOwn.ts';
import type { Actor } from '../run.ts';
import { loadWorld } from '../schedule/steps/loadWorld.ts';

export type SwapLine = { people: { id: string; name: string; phone: string }[]; from: Swap['from']; minutes: number; sentence: string };

/** Proposals for the site of a visit of today, soonest there first. Refusals: not-found, not-on-this-visit. */
export async function readSwaps(
  reader: Reader,
  now: Date,
  ask: { itemId: string; visitId: string; actor: Actor },
): Promise<Outcome<SwapLine[]>> {
  const item = await findKitItem(reader, ask.itemId);
  if (!item) return refuse('not-found', { thing: 'piece of kit' });
  const visit = await findVisit(reader, ask.visitId);
  const catalog = await findCatalog(reader, now);
  if (!visit || !catalog) return refuse('not-found', { thing: 'visit' });
  const { office } = catalog;
  const { day, minute } = wallTime(now, office.zone);
  const world = await loadWorld(reader, { from: day, to: day, now, officeId: office.id, zone: office.zone });
  const place = world.busy.find(({ id }) => id === visit.id)?.place;
  if (!place) return refuse('not-found', { thing: 'visit of today' });
  const own = onlyOwn(ask.actor);
  if (own !== null && ![visit.first, visit.second].includes(own)) return refuse('not-on-this-visit');
  const crew = [visit.first, visit.second].filter((id) => id !== null);
  const swaps = proposeSwaps(
    world,
    { day, minute, pool: poolOf(world.kit, item, visit.kit), place, crew, store: { lat: office.lat, lon: office.lon } },
    travelOf(world.travel),
  );
  const people = new Map((await listPeople(reader)).map(({ id, name, phone }) => [id, { id, name, phone }]));
  return accept(
    swaps.map((swap) => ({
      people: swap.personIds.map((id) => people.get(id)!),
      from: swap.from,
      minutes: swap.minutes,
      sentence: sentenceOf(swap, item.name, minute),
    })),
  );
}

/** What has to be brought: the same size, or a ladder as long as the visit needs. */
function poolOf(kit: readonly KitPool[], { kind, size }: { kind: string; size: string | null }, needed: readonly string[]): string {
  if (size !== null) return wornPool(kind, size);
  const long = kit.filter((pool) => pool.of === kind && needed.includes(pool.kind)).toSorted((a, b) => a.count - b.count);
  return long[0]?.kind ?? kind;
}

function sentenceOf({ from, minutes, freeFrom, freeUntil }: Swap, kit: string, minute: number): string {
  const what = from === 'carried' ? `carries a ${kit.toLowerCase()}` : 'is free and can fetch a spare one at the office';
  const when = freeFrom > minute ? `, needed there until ${sayTime(freeFrom)}` : '';
  const back = freeUntil === null ? '' : `, has to go on at ${sayTime(freeUntil)}`;
  return `${what}${when}; ${minutes} min away${back}.`;
}
