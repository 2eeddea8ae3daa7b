// When the firm can come: ranked starts with their people, every part of the score, and why other days are not possible.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { Reader } from '@backsight/store/database';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { firstPeopleOfVisit } from '@backsight/store/schedule/visits';
import { demandOf, planOf, type Place } from '../jobs/steps/plan.ts';
import type { Wishes } from './steps/demand.ts';
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
  limit: number;
  withoutVisit: string | null;
};

/** Services and seasons are those of the first day asked; the hold looks again at its own day. */
export async function findStarts(reader: Reader, now: Date, input: StartsInput) {
  const catalog = await findCatalog(reader, now);
  if (!catalog) return refuse('not-set-up', { what: 'office' });
  const plan = planOf(catalog, { facts: input.facts, services: input.services, day: input.fromDay, place: input.place });
  if (!plan.ok) return plan;
  const demand = demandOf(catalog, plan.value, {
    visitKind: input.visitKind,
    place: input.place,
    involves: input.propertyId ? [input.propertyId] : [],
    objectionOn: input.objectionOn,
  });
  if (!demand.ok) return demand;
  const neverAlone = input.withoutVisit === null ? [] : await firstPeopleOfVisit(reader, input.withoutVisit);
  return accept(await rankStarts(reader, now, { ...input, office: catalog.office, demand: { ...demand.value, neverAlone } }));
}
