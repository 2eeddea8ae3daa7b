// When the firm can come: ranked starts with their people, every part of the score, and why other days are not possible.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { Reader } from '@backsight/store/database';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { addDays } from '@backsight/scheduling/time';
import { findDaysWithParty, firstPeopleOfVisit } from '@backsight/store/schedule/visits';
import { demandOf, planOf, type Place } from '../jobs/steps/plan.ts';
import type { Wishes } from './steps/demand.ts';
import { startOfDay } from './steps/loadWorld.ts';
import { rankStarts } from './steps/rankStarts.ts';

export type StartsInput = {
  place: Place;
  facts: PropertyFacts;
  services: string[];
  visitKind: string;
  fromDay: string;
  days: number;
  wishes?: Wishes | undefined;
  objectionOn: string | null;
  propertyId: string | null;
  /** Callers and clients known so far: whoever may not be sent to one of them is left out. */
  parties?: string[] | undefined;
  limit: number;
  perDay?: number | undefined;
  /** Minutes of the day within which the visit is wanted. */
  earliest?: number | undefined;
  latestEnd?: number | undefined;
  withoutVisit: string | null;
  /** Who was chosen for an outside service. */
  providers?: { service: string; providerId: string }[] | undefined;
  /** A party of the job on whose other days the visit is wished for. */
  sameDayAs?: string | undefined;
  pair?: string[] | undefined;
};

const daysWithParty = (reader: Reader, { sameDayAs, fromDay, days }: StartsInput, zone: string): Promise<string[]> =>
  findDaysWithParty(reader, {
    partyId: sameDayAs!,
    from: startOfDay(fromDay, zone),
    until: startOfDay(addDays(fromDay, days), zone),
    zone,
  });

/** Services and seasons are those of the first day asked; the hold looks again at its own day. */
export async function findStarts(reader: Reader, now: Date, input: StartsInput) {
  const catalog = await findCatalog(reader, now);
  if (!catalog) return refuse('not-set-up', { what: 'office' });
  const plan = planOf(catalog, { facts: input.facts, services: input.services, day: input.fromDay, place: input.place });
  if (!plan.ok) return plan;
  const demand = demandOf(catalog, plan.value, {
    visitKind: input.visitKind,
    place: input.place,
    involves: [...(input.propertyId ? [input.propertyId] : []), ...(input.parties ?? [])],
    objectionOn: input.objectionOn,
    providers: input.providers ?? [],
  });
  if (!demand.ok) return demand;
  const neverAlone = input.withoutVisit === null ? [] : await firstPeopleOfVisit(reader, input.withoutVisit);
  const { office } = catalog;
  const wishes = { ...input.wishes, ...(input.sameDayAs ? { days: await daysWithParty(reader, input, office.zone) } : {}) };
  return accept(await rankStarts(reader, now, { ...input, wishes, office, demand: { ...demand.value, neverAlone } }));
}
