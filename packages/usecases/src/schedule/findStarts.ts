// When the firm can come: ranked starts with their people, every part of the score, and why other days are not possible.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { daysFrom, instantOf } from '@backsight/domain/schedule/wallClock';
import { findStarts as search } from '@backsight/scheduling/findStarts';
import type { StartOption } from '@backsight/scheduling/world';
import type { Reader } from '@backsight/store/database';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { demandOf, planOf, type Place } from '../jobs/steps/plan.ts';
import { queryOf, type Wishes } from './steps/demand.ts';
import { loadWorld } from './steps/loadWorld.ts';

export type StartsInput = {
  place: Place; facts: PropertyFacts; services: string[]; visitKind: string; fromDay: string; days: number; wishes?: Wishes | undefined;
  objectionOn: string | null; propertyId: string | null; limit: number; withoutVisit: string | null;
};

/** Services and seasons are those of the first day asked; the hold looks again at its own day. */
export async function findStarts(reader: Reader, now: Date, input: StartsInput) {
  const catalog = await findCatalog(reader, now);
  if (!catalog) return refuse('not-set-up', { what: 'office' });
  const plan = planOf(catalog, { facts: input.facts, services: input.services, day: input.fromDay, place: input.place });
  if (!plan.ok) return plan;
  const demand = demandOf(catalog, plan.value, { visitKind: input.visitKind, place: input.place, involves: input.propertyId ? [input.propertyId] : [], objectionOn: input.objectionOn });
  if (!demand.ok) return demand;
  const days = daysFrom(input.fromDay, input.days);
  const { office } = catalog;
  const loaded = await loadWorld(reader, { from: days[0]!, to: days.at(-1)!, now, officeId: office.id, zone: office.zone });
  const world = { ...loaded, busy: loaded.busy.filter(({ id }) => id !== input.withoutVisit) };
  const found = search(world, queryOf(office, demand.value, { days, now, limit: input.limit, wishes: input.wishes }));
  const names = new Map(world.people.map(({ id, name }) => [id, name]));
  return accept({ minutes: demand.value.minutes, zone: office.zone, options: found.options.flatMap((option) => said(option, names, office.zone)), blockedDays: found.blockedDays });
}

/** An option with its instants and names; a time that the clock skips is none. */
function said(option: StartOption, names: ReadonlyMap<string, string>, zone: string) {
  const startsAt = instantOf(option.day, option.start, zone);
  if (!startsAt.ok) return [];
  const endsAt = new Date(startsAt.value.getTime() + (option.end - option.start) * 60_000);
  const { day, first, second, score, parts, sentence, marks, tightest } = option;
  return [{
    day, startsAt: startsAt.value.toISOString(), endsAt: endsAt.toISOString(), first, second, firstName: names.get(first) ?? '', secondName: second === null ? null : names.get(second) ?? '',
    score, parts, sentence, marks, tightest,
  }];
}
