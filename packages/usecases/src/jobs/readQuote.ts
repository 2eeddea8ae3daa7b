// Reads before a job exists: what it costs, how long it takes, what is offered; and whether the property is on file.
import { addressKey } from '@backsight/domain/jobs/address';
import { isOffered, offerOf } from '@backsight/domain/jobs/decide';
import { withDiscount, type DiscountSaid } from '@backsight/domain/fees/discount';
import { unpricedServices } from '@backsight/domain/fees/quote';
import type { Role } from '@backsight/domain/people/roles';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findCatalog, listTowns, type Catalog } from '@backsight/store/jobs/catalog';
import { searchParties } from '@backsight/store/jobs/parties';
import { findPropertyByKey } from '@backsight/store/jobs/properties';
import { sentenceOf } from '../sitework/steps/sentence.ts';
import { allowedDiscount } from './steps/discount.ts';
import { looksFor } from './steps/offerLooks.ts';
import { placeOf } from './steps/place.ts';
import { planOf, type Place, type Plan, type PlanInput } from './steps/plan.ts';

export type QuoteInput = {
  facts: PropertyFacts;
  services: string[];
  day: string;
  place: Place | null;
  startMinute?: number | null;
  discount?: DiscountSaid | null;
};

/** Itemised fee and duration with reasons and assumptions, services offered or not with why, requirements with reasons. Of a house of which nothing is known no later look is offered yet. A discount that may not be given is left out, and said why. */
export async function readQuote(reader: Reader, now: Date, { discount: said, ...input }: QuoteInput, roles: readonly Role[] = []) {
  const catalog = await findCatalog(reader, now);
  if (!catalog) return refuse('not-set-up', { what: 'office' });
  const plan = planOf(catalog, input);
  if (!plan.ok) return plan;
  const { context, fee, duration, requirements, travelMinutes } = plan.value;
  const discount = await allowedDiscount(reader, said, { feeCents: fee.totalCents, roles });
  return accept({
    fee: withDiscount(fee, discount.ok ? discount.value : null),
    discountRefused: discount.ok ? null : sentenceOf(discount),
    duration,
    travelMinutes,
    requirements: requirements.reasons,
    laterLooks: Object.keys(input.facts).length === 0 ? [] : looksFor(catalog, context),
    services: servicesOf(catalog, input, plan.value),
  });
}

const servicesOf = (catalog: Catalog, input: PlanInput, plan: Plan) =>
  catalog.services.filter(isOffered).map((service) => {
    const { offered, why } = offerOf(service, catalog.providers, plan.context);
    const ordered = input.services.includes(service.key);
    return {
      key: service.key,
      name: service.name,
      searchWords: [...service.searchWords],
      base: service.base,
      ordered,
      offered,
      why,
      adds: ordered || service.base || offered === 'no' ? null : addsOf(catalog, input, { service: service.key, plan }),
    };
  });

/** What a service more would add to fee and time, whatever else of the schedule follows from it. */
function addsOf(catalog: Catalog, input: PlanInput, { service, plan }: { service: string; plan: Plan }) {
  const services = [...input.services, service];
  const more = planOf(catalog, { ...input, services });
  if (!more.ok) return null;
  const priced = unpricedServices(catalog.schedule!.body, [service], '').length === 0;
  return {
    cents: priced ? more.value.fee.totalCents - plan.fee.totalCents : null,
    minutes: more.value.duration.minutes - plan.duration.minutes,
  };
}

/** Towns of the firm, for a place before the exact one is known. */
export const readTowns = (reader: Reader) => listTowns(reader);

/** The place of a town or of a ZIP code, as a hold would take it. */
export const readPlace = (reader: Reader, q: { town: string; zip?: string | undefined }) => placeOf(reader, q);

/** Whether an address is on file. Never for whom, and nothing that was learned there. */
export async function lookUpProperty(reader: Reader, q: { address: string; town: string }) {
  const known = await findPropertyByKey(reader, addressKey(q.address, q.town));
  return known
    ? {
        onFile: true,
        propertyId: known.id,
        address: known.address,
        inspectedBefore: known.inspected > 0,
        askOwner: known.askOwner !== null,
        lat: known.lat,
        lon: known.lon,
        state: known.state,
      }
    : { onFile: false, propertyId: null, address: null, inspectedBefore: false, askOwner: false, lat: null, lon: null, state: null };
}

export const lookUpParties = async (reader: Reader, text: string) =>
  (await searchParties(reader, text)).map(({ id, name, email, phone, askOwner }) => ({ id, name, email, phone, askOwner }));
