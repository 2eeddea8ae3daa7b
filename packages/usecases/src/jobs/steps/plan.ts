// A job priced and planned: fee, duration, requirements and services for one property on one day.
import { quoteFee, unpricedServices } from '@backsight/domain/fees/quote';
import { withDiscount, type Discount } from '@backsight/domain/fees/discount';
import type { FeeQuote } from '@backsight/domain/fees/schedule';
import { estimateDuration, type DurationEstimate } from '@backsight/domain/jobs/duration';
import { requirements, type Requirements } from '@backsight/domain/schedule/requirements';
import type { NamedContext } from '@backsight/domain/shared/evaluate';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { estimatedTravel } from '@backsight/scheduling/travel';
import type { Catalog } from '@backsight/store/jobs/catalog';
import type { Demand } from '../../schedule/steps/demand.ts';

export type Place = { lat: number; lon: number };
export type PlanInput = {
  facts: PropertyFacts;
  services: readonly string[];
  day: string;
  place: Place | null;
  startMinute?: number | null;
  /** Given by hand. */
  discount?: Discount | null;
};
export type Plan = {
  context: NamedContext;
  fee: FeeQuote;
  duration: DurationEstimate;
  requirements: Requirements;
  travelMinutes: number | null;
};

/** Prices and plans by the rules and the schedule of the catalog. Refuses while the firm has none in force. */
export function planOf(catalog: Catalog, input: PlanInput): Outcome<Plan> {
  if (!catalog.rules) return refuse('not-set-up', { what: 'booking rules' });
  if (!catalog.schedule) return refuse('not-set-up', { what: 'fee schedule' });
  const serviceNames = Object.fromEntries(catalog.services.map(({ key, name }) => [key, name]));
  const context = { facts: input.facts, services: input.services, day: input.day, serviceNames };
  const travelMinutes = input.place ? estimatedTravel.minutes(catalog.office, input.place) : null;
  const priced = quoteFee(catalog.schedule.body, { ...context, travelMinutes, startMinute: input.startMinute ?? null });
  const fee = withDiscount(priced, input.discount ?? null);
  const base = catalog.services.find((one) => one.base)?.key ?? '';
  const unpriced = unpricedServices(catalog.schedule.body, input.services, base).map(
    (key) => `${serviceNames[key] ?? key}: no price is set; nothing is charged for it.`,
  );
  return accept({
    context,
    travelMinutes,
    fee: { ...fee, assumptions: [...fee.assumptions, ...unpriced] },
    duration: estimateDuration(catalog.rules.body.durations, context),
    requirements: requirements(catalog.rules.body.requirements, context),
  });
}

/** `providers`: who was chosen for an outside service; anybody who does it where nobody was. */
type For = {
  visitKind: string;
  place: Place;
  involves: string[];
  objectionOn: string | null;
  providers?: readonly { service: string; providerId: string }[];
};

/** The outside services that are ordered, each with the provider chosen or everybody who does it, cheapest first. */
const outsideOf = (catalog: Catalog, ordered: readonly string[], chosen: For['providers'] = []): Demand['outside'] =>
  catalog.services
    .filter(({ key, providerOnly }) => providerOnly && ordered.includes(key))
    .map(({ key, name }) => {
      const wanted = chosen.find(({ service }) => service === key)?.providerId;
      return { service: key, name, providers: catalog.providers.filter((one) => one.serviceKey === key && (!wanted || one.id === wanted)) };
    });

/** What the visit demands. The inspection takes the minutes of the plan; every other kind takes its own. */
export function demandOf(catalog: Catalog, plan: Plan, { visitKind, place, involves, objectionOn, providers }: For): Outcome<Demand> {
  const kind = catalog.visitKinds.find(({ key }) => key === visitKind);
  if (!kind) return refuse('visit-kind-not-known', { kind: visitKind });
  const deadline =
    objectionOn === null ? {} : { reportDeadline: { day: objectionOn, reportMinutesAfter: catalog.firm.reportDueDays * 1440 } };
  const shared = { kind: kind.key, crewSize: kind.crewSize, place, involves, ...deadline };
  if (visitKind !== 'inspection') {
    const { minutes, reportMinutes } = kind;
    return accept({ ...shared, minutes, reportMinutes, walkThroughMinutes: 0, outside: [], needEach: [], needAny: [], kit: [] });
  }
  const { needEach, needAny, kit, roofWork } = plan.requirements;
  return accept({
    ...shared,
    minutes: plan.duration.minutes,
    reportMinutes: plan.duration.reportMinutes,
    walkThroughMinutes: plan.duration.walkThroughMinutes,
    outside: outsideOf(catalog, plan.context.services, providers),
    needEach,
    needAny,
    kit,
    ...(roofWork ? { roofWork } : {}),
  });
}
