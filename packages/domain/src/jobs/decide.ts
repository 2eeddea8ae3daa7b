// Decisions about a job: what may be held, confirmed, moved, cancelled, learned.
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';
import type { NamedContext } from '../shared/evaluate.ts';
import { formatUsd } from '../shared/money.ts';
import { offered, type ServiceDefinition } from './services.ts';
import type { Role } from '../people/roles.ts';
import { JOB_STATES, NEED_KINDS, statesByHand, type JobState, type NeedKind, type NeedState, type PartyRole } from './words.ts';

/** An outside firm for a service, with the last days of its papers. */
export type Provider = {
  id: string;
  serviceKey: string;
  name: string;
  licenseUntil: string | null;
  insuranceUntil: string | null;
  /** Minutes after the start of the visit at which he begins, and how long he takes. */
  offsetMinutes: number;
  minutes: number;
  costCents: number;
  /** Under contract with the firm; else with the client directly. */
  contractsWithUs: boolean;
};
/** `endedOn`: no longer offered since then; jobs that ordered it keep it. */
export type CatalogService = ServiceDefinition & { base: boolean; endedOn?: string | null };
export const isOffered = ({ endedOn }: CatalogService): boolean => (endedOn ?? null) === null;
type Offer = ReturnType<typeof offered>;

const papersValid = (provider: Provider, day: string): boolean =>
  [provider.licenseUntil, provider.insuranceUntil].every((until) => until === null || day <= until);

/** The first provider of a service whose license and insurance are valid on the day. */
export const providerFor = (service: string, providers: readonly Provider[], day: string): Provider | undefined =>
  providers.find((provider) => provider.serviceKey === service && papersValid(provider, day));

/** Whether a service can be ordered, its outside provider with valid papers included. */
export function offerOf(service: CatalogService, providers: readonly Provider[], context: NamedContext): Offer {
  const offer = offered(service, context);
  if (!service.providerOnly || offer.offered === 'no') return offer;
  const provider = providerFor(service.key, providers, context.day);
  return provider
    ? { ...offer, why: `${offer.why} (${provider.name})` }
    : { offered: 'no', why: 'Not offered: no outside provider whose license and insurance are valid on that day.' };
}

/** Every ordered service exists and is offered here on that day, and the base service is among them. What is not known yet does not refuse. */
export function mayOrder(
  services: readonly string[],
  catalog: readonly CatalogService[],
  providers: readonly Provider[],
  context: NamedContext,
): Outcome<null> {
  const warnings: Warning[] = [];
  for (const key of services) {
    const service = catalog.find((one) => one.key === key);
    if (!service) return refuse('service-not-known', { service: key }, 'services');
    const offer = offerOf(service, providers, context);
    if (offer.offered === 'no') return refuse('service-not-offered', { service: service.name, why: offer.why }, 'services');
    if (offer.offered === 'unknown') warnings.push({ code: 'service-open', text: `${service.name}: ${offer.why}` });
  }
  const base = catalog.find((one) => one.base);
  return base && !services.includes(base.key) ? refuse('base-service-missing', { service: base.name }, 'services') : accept(null, warnings);
}

/** Only a lead inspector or the owner decides who may go again; what follows from signing, paying, results or a decision is never ticked off. */
export function maySettle(kind: NeedKind, state: NeedState, roles: readonly Role[]): Outcome<null> {
  if (!statesByHand(kind).includes(state)) return refuse('need-follows', { need: NEED_KINDS[kind] });
  return kind === 'same_pair' && !roles.includes('lead_inspector') && !roles.includes('owner') ? refuse('lead-decides') : accept(null);
}

/** The caller heard one price; another one is never frozen silently. */
export const priceAsTold = (toldCents: number | null, nowCents: number): Outcome<null> =>
  toldCents === null || toldCents === nowCents
    ? accept(null)
    : refuse('price-changed', { toldUsd: formatUsd(toldCents), nowUsd: formatUsd(nowCents), nowCents });

/** Somebody marked "ask the owner" is booked by an owner only. */
export const ownerAsked = (parties: readonly { name: string; askOwner: string | null }[], byOwner: boolean): Outcome<null> => {
  const marked = parties.find(({ askOwner }) => askOwner !== null);
  return marked && !byOwner ? refuse('ask-owner', { name: marked.name, reason: marked.askOwner! }) : accept(null);
};

const inState = (state: JobState, allowed: readonly JobState[]): Outcome<null> =>
  allowed.includes(state) ? accept(null) : refuse('job-is', { state: JOB_STATES[state] });

/** A held job is confirmed; a lapsed one too, as long as its time is still free (the placing tells). */
export function mayConfirm(job: { state: JobState; roles: readonly PartyRole[] }): Outcome<null> {
  const allowed = inState(job.state, ['held', 'lapsed']);
  if (!allowed.ok) return allowed;
  return job.roles.includes('client') ? accept(null) : refuse('client-missing');
}

export const mayCancel = (state: JobState): Outcome<null> => inState(state, ['held', 'booked', 'lapsed']);
export const mayMove = (state: JobState): Outcome<null> => inState(state, ['held', 'booked']);
export const mayAddVisit = (state: JobState): Outcome<null> => inState(state, ['held', 'booked', 'on_site', 'visited']);
export const mayLearn = (state: JobState): Outcome<null> => inState(state, ['held', 'booked', 'on_site', 'lapsed']);
/** A discount is given until the visit begins; later the invoice takes a credit note. */
export const mayStillDiscount = (state: JobState): Outcome<null> =>
  state === 'held' || state === 'booked' || state === 'lapsed' ? accept(null) : refuse('discount-late', { state: JOB_STATES[state] });
/** Papers are issued, again or for the first time, for a job that takes place or took place. */
export const mayPaper = (state: JobState): Outcome<null> => inState(state, ['held', 'booked', 'on_site', 'visited', 'reported']);
/** Papers are issued anew once they were issued on confirming. */
export const mayPaperAgain = (state: JobState): Outcome<null> => inState(state, ['booked', 'on_site', 'visited', 'reported']);
export const mayChangeParties = (state: JobState): Outcome<null> =>
  inState(state, ['held', 'booked', 'on_site', 'visited', 'ended', 'reported', 'lapsed']);
/** After a visit that ended early the job is booked again. */
export const mayBookAgain = (state: JobState): Outcome<null> => inState(state, ['ended']);

/** Anybody but the client receives the report only with the client's written consent. */
export const mayStand = (role: PartyRole, mayReceiveReport: boolean, consentAt: string | null): Outcome<null> =>
  mayReceiveReport && role !== 'client' && consentAt === null ? refuse('consent-missing', {}, 'consentAt') : accept(null);

/** A booked job keeps a client. */
export const mayLeave = (job: { state: JobState; roles: readonly PartyRole[] }, role: PartyRole): Outcome<null> => {
  const clients = job.roles.filter((one) => one === 'client').length;
  return role === 'client' && clients <= 1 && job.state !== 'held' ? refuse('last-client') : accept(null);
};
