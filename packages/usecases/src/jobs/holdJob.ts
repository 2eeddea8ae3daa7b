// Holds a time with a price for a caller who is still on the phone.
import { addressKey } from '@backsight/domain/jobs/address';
import type { DiscountSaid } from '@backsight/domain/fees/discount';
import { isOffered, mayOrder, ownerAsked, priceAsTold } from '@backsight/domain/jobs/decide';
import { needsOf } from '@backsight/domain/jobs/needs';
import type { Source, Terms } from '@backsight/domain/jobs/words';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { shortState } from '@backsight/domain/shared/stateOfZip';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { findCatalog, type Catalog } from '@backsight/store/jobs/catalog';
import { addJobEvent, insertJob, saveFeeLines, saveNeeds, saveServices } from '@backsight/store/jobs/jobs';
import {
  fileProperty,
  findPropertyByKey,
  saveFacts,
  setExactPlace,
  type KnownProperty,
  type PropertyRow,
} from '@backsight/store/jobs/properties';
import { peopleForOtherClients } from '@backsight/store/schedule/crew';
import { nextNumber } from '@backsight/store/numbers';
import type { Act, Work } from '../run.ts';
import { writeVisit, type PlacedVisit } from '../schedule/steps/placeVisit.ts';
import { reserveStart, type Reserved, type Start } from '../schedule/steps/reserveStart.ts';
import type { Demand } from '../schedule/steps/demand.ts';
import { allowedDiscount, keepDiscount, rolesOf, unsaidReason } from './steps/discount.ts';
import { offerLooks } from './steps/offerLooks.ts';
import { knowPeople, standOnJob, type PartyInput, type Standing } from './steps/people.ts';
import { placeOf } from './steps/place.ts';
import { demandOf, planOf, type Plan, type PlanInput } from './steps/plan.ts';

export type HoldInput = {
  id: string;
  property: {
    id: string;
    address: string;
    town: string;
    zip?: string | undefined;
    state?: string | undefined;
    lat?: number | undefined;
    lon?: number | undefined;
  };
  facts: PropertyFacts;
  services: string[];
  /** Who was chosen for an outside service; the cheapest who is free where nobody was. */
  providers?: { service: string; providerId: string }[] | undefined;
  parties: PartyInput[];
  start: Start;
  /** The window that the client was told; the very start when none. */
  promised?: { from: string; until: string } | null | undefined;
  terms: Terms;
  tenant: boolean;
  source: Source;
  clientAttends: boolean;
  objectionOn: string | null;
  /** Given by hand, by whoever holds the time. */
  discount?: DiscountSaid | null | undefined;
  /** The price that the caller was told; null when none was. */
  toldCents: number | null;
};
export type Held = PlacedVisit & {
  id: string;
  number: number;
  version: number;
  propertyId: string;
  totalCents: number;
  holdEndsAt: string;
  warnings: Warning[];
};

export const holdJob: Act<HoldInput, Held> = { operation: 'jobs.hold', run: hold };

type Prepared = {
  catalog: Catalog;
  plan: Plan;
  demand: Demand;
  property: PropertyRow;
  before: KnownProperty | null;
  people: Standing[];
  warnings: Warning[];
};

async function hold(work: Work, input: HoldInput): Promise<Outcome<Held>> {
  const prepared = await prepare(work, input);
  if (!prepared.ok) return prepared;
  const promised = windowOf(input);
  if (!promised.ok) return promised;
  const reserved = await reserveStart(work, { office: prepared.value.catalog.office, demand: prepared.value.demand, start: input.start });
  if (!reserved.ok) return reserved;
  return accept(await write(work, input, prepared.value, { ...reserved.value, promised: promised.value }), prepared.value.warnings);
}

type Window = { from: Date; until: Date };

/** The window told to the client holds the start. */
function windowOf({ promised, start }: HoldInput): Outcome<Window | null> {
  if (!promised) return accept(null);
  const [from, at, until] = [promised.from, start.startsAt, promised.until].map((one) => new Date(one)) as [Date, Date, Date];
  const holds = from <= at && at <= until && until.getTime() - from.getTime() <= 86_400_000;
  return holds ? accept({ from, until }) : refuse('visit-promise', {}, 'promised');
}

async function prepare(work: Work, input: HoldInput): Promise<Outcome<Prepared>> {
  const catalog = await findCatalog(work.tx, work.now);
  if (!catalog) return refuse('not-set-up', { what: 'office' });
  const property = await propertyOf(work, input);
  if (!property.ok) return property;
  const { day, minute } = wallTime(new Date(input.start.startsAt), catalog.office.zone);
  const asked = { facts: input.facts, services: input.services, day, place: property.value.row, startMinute: minute };
  const plan = await planDiscounted(work, catalog, asked, input.discount);
  if (!plan.ok) return plan;
  const ordered = mayOrder(input.services, catalog.services.filter(isOffered), catalog.providers, plan.value.context);
  if (!ordered.ok) return ordered;
  const price = priceAsTold(input.toldCents, plan.value.fee.totalCents);
  if (!price.ok) return price;
  const people = await knowPeople(work, input.parties);
  if (!people.ok) return people;
  const { row, before } = property.value;
  const byOwner = work.actor.kind === 'person' && work.actor.roles.includes('owner');
  const asksOwner = ownerAsked([{ name: row.address, askOwner: before?.askOwner ?? null }], byOwner);
  if (!asksOwner.ok) return asksOwner;
  const demand = demandOf(catalog, plan.value, {
    visitKind: 'inspection',
    place: row,
    involves: [row.id, ...people.value.map(({ partyId }) => partyId)],
    objectionOn: input.objectionOn,
    providers: input.providers ?? [],
  });
  if (!demand.ok) return demand;
  return accept({
    catalog,
    plan: plan.value,
    demand: demand.value,
    property: row,
    before,
    people: people.value,
    warnings: [...ordered.warnings, ...onFile(input.property.state, before)],
  });
}

/** What of the file of this property the booker is told. */
function onFile(said: string | undefined, before: KnownProperty | null): Warning[] {
  if (!before) return [];
  const seen = 'A file exists for this property. A lead inspector decides whether the same pair may go.';
  const lies = `On file the property lies in ${shortState(before.state)}, and that was kept. Its state is set on the page of the job.`;
  return [
    ...(before.inspected > 0 ? [{ code: 'inspected-before', text: seen }] : []),
    ...(said !== undefined && before.state !== '' && said !== before.state ? [{ code: 'state-on-file', text: lies }] : []),
  ];
}

/** Priced with the discount that the one who holds may give. */
async function planDiscounted(
  work: Work,
  catalog: Catalog,
  asked: PlanInput,
  said: DiscountSaid | null | undefined,
): Promise<Outcome<Plan>> {
  const plan = planOf(catalog, asked);
  if (!plan.ok || !said) return plan;
  const reason = unsaidReason(said);
  if (!reason.ok) return reason;
  const discount = await allowedDiscount(work.tx, said, { feeCents: plan.value.fee.totalCents, roles: rolesOf(work.actor) });
  return discount.ok ? planOf(catalog, { ...asked, discount: discount.value }) : discount;
}

async function propertyOf(work: Work, { property }: HoldInput): Promise<Outcome<{ row: PropertyRow; before: KnownProperty | null }>> {
  const key = addressKey(property.address, property.town);
  const before = await findPropertyByKey(work.tx, key);
  if (before && (before.placeBy === 'exact' || property.lat === undefined || property.lon === undefined))
    return accept({ row: before, before });
  const place = await placeOf(work.tx, property);
  if (!place.ok) return place;
  if (before) return accept({ row: { ...before, ...place.value, zip: before.zip, state: before.state }, before });
  return accept({
    row: {
      id: property.id,
      address: property.address,
      town: property.town,
      addressKey: key,
      ...place.value,
      state: property.state ?? place.value.state,
    },
    before: null,
  });
}

async function write(work: Work, input: HoldInput, p: Prepared, reserved: Reserved & { promised: Window | null }): Promise<Held> {
  const { tx, now } = work;
  const stamp = { newId: work.newId, at: now };
  const actorId = work.actor.kind === 'person' ? work.actor.id : null;
  const property = await fileProperty(tx, { ...rowOf(p.property), recordedAt: now });
  if (p.property.placeBy === 'exact' && property.placeBy !== 'exact') await knowPlace(work, property, p.property);
  await saveFacts(tx, { id: work.newId(), propertyId: property.id, facts: input.facts, recordedAt: now, recordedBy: actorId });
  const row = jobRow(input, p, { number: await nextNumber(tx, 'job'), propertyId: property.id });
  await insertJob(tx, { ...row, id: input.id, state: 'held', version: 1, recordedAt: now });
  await saveServices(
    tx,
    input.id,
    input.services.map((serviceKey) => ({ serviceKey, ...agreedWith(reserved, serviceKey) })),
  );
  await saveFeeLines(tx, input.id, p.plan.fee.lines, stamp);
  if (input.discount) await keepDiscount(work, input.id, input.discount);
  await standOnJob(work, input.id, input.parties);
  await offerLooks(work, input.id, p.catalog, p.plan.context);
  await saveNeeds(tx, input.id, needsOf(await neededFor(work, input, p, reserved), reserved.startsAt, now), stamp);
  const holdEndsAt = new Date(now.getTime() + p.catalog.firm.holdMinutes * 60_000);
  const visit = await writeVisit(work, { jobId: input.id, demand: p.demand, reserved, holdEndsAt, promised: reserved.promised });
  const { totalCents } = p.plan.fee;
  const { visitId, startsAt, first, second } = visit;
  const version = await addJobEvent(tx, {
    id: work.newId(),
    jobId: input.id,
    at: now,
    actorId,
    kind: 'held',
    state: 'held',
    details: { ...row, services: input.services, totalCents, visitId, startsAt, first, second },
  });
  await work.did('job', input.id, { number: row.number, totalCents, visitId, startsAt, first, second, services: input.services });
  return {
    ...visit,
    id: input.id,
    number: row.number,
    version,
    propertyId: property.id,
    totalCents,
    holdEndsAt: holdEndsAt.toISOString(),
    warnings: p.warnings,
  };
}

/** Outside services, and whether somebody of this pair was at the house for another client. */
async function neededFor(work: Work, { facts, services, terms, tenant, parties }: HoldInput, p: Prepared, reserved: Reserved) {
  const clients = parties.filter(({ role }) => role === 'client').map(({ id }) => id);
  const before = p.before ? await peopleForOtherClients(work.tx, p.before.id, clients) : [];
  const outside = p.demand.outside?.map(({ name }) => name) ?? [];
  const samePair = before.includes(reserved.first) || (reserved.second !== null && before.includes(reserved.second));
  return { facts, services, terms, tenant, parties: p.people, outside, samePair };
}

/** The provider of a service with what is agreed now; later changes of his price leave the job alone. */
function agreedWith(reserved: Reserved, serviceKey: string) {
  const provider = reserved.outside.find(({ service }) => service === serviceKey)?.provider;
  return provider
    ? { providerId: provider.id, agreedCents: provider.costCents, contractsWithUs: provider.contractsWithUs }
    : { providerId: null };
}

const jobRow = (input: HoldInput, p: Prepared, { number, propertyId }: { number: number; propertyId: string }) => ({
  number,
  officeId: p.catalog.office.id,
  propertyId,
  kind: 'inspection' as const,
  facts: input.facts,
  scheduleId: p.catalog.schedule!.id,
  rulesId: p.catalog.rules!.id,
  parentId: null,
  terms: input.terms,
  objectionOn: input.objectionOn,
  source: input.source,
  clientAttends: input.clientAttends,
});

/** The exact place of a house that was filed by its town or ZIP code, now that somebody says it. */
async function knowPlace(work: Work, before: KnownProperty, { lat, lon }: PropertyRow): Promise<void> {
  await setExactPlace(work.tx, before.id, before.version, { lat, lon });
  await work.did('property', before.id, { placed: 'exact', placedBefore: before.placeBy });
}

const rowOf = ({ id, address, town, zip, state, lat, lon, placeBy, addressKey: key }: PropertyRow): PropertyRow => ({
  id,
  address,
  town,
  zip,
  state,
  lat,
  lon,
  placeBy,
  addressKey: key,
});
