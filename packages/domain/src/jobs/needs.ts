// What is still to get between a held time and a visit that can start, each with the time by which it is needed.
import type { PropertyFacts } from '../shared/facts.ts';
import type { NeedKind, NeedState, PartyRole, Terms } from './words.ts';

export type NeedsFor = {
  facts: PropertyFacts;
  services: readonly string[];
  terms: Terms;
  /** The house is let, so somebody other than the seller must be told. */
  tenant: boolean;
  parties: readonly { role: PartyRole; email: string | null }[];
  /** Services that outside providers do, by name. */
  outside?: readonly string[];
  /** Somebody of the pair was at this house for another client. */
  samePair?: boolean;
};

export type Need = { kind: NeedKind; state: NeedState; dueAt: Date; why: string };

const HOUR = 3_600_000;

/** Hours before the start; a client's address is needed at once, because the agreement goes there. */
const LEAD: Partial<Record<NeedKind, number>> = {
  access: 24,
  utilities: 48,
  signature: 24,
  payer: 24,
  payment: 24,
  tenant_notice: 36,
  closed_house: 24,
};

/** Never due before there was an hour to get it, never after the visit has begun. */
const before = (hours: number, start: Date, now: Date): Date =>
  new Date(Math.min(start.getTime(), Math.max(now.getTime() + HOUR, start.getTime() - hours * HOUR)));

const utilitiesOn = ({ waterOn, electricityOn, gasOn, heatingFuel }: PropertyFacts): boolean =>
  waterOn === true &&
  electricityOn === true &&
  (gasOn === true || (heatingFuel !== undefined && !heatingFuel.includes('natural_gas') && !heatingFuel.includes('propane')));

const AWAITED = ['radon', 'well_water_sample'];

type Asked = { kind: NeedKind; when: boolean; settled?: boolean; why: string };

const asked = (job: NeedsFor): Asked[] => {
  const has = (role: PartyRole): boolean => job.parties.some((party) => party.role === role);
  return [
    {
      kind: 'client_address',
      when: !job.parties.some((party) => party.role === 'client' && party.email),
      why: 'The agreement and the appointment go to this address.',
    },
    { kind: 'access', when: true, why: 'Somebody has to agree to the time, and say how the pair gets in.' },
    { kind: 'utilities', when: true, settled: utilitiesOn(job.facts), why: 'What is switched off stays off and cannot be inspected.' },
    { kind: 'signature', when: true, why: 'No visit starts without the signed agreement.' },
    { kind: 'payer', when: true, settled: has('payer'), why: 'The invoice names who pays.' },
    {
      kind: 'payment',
      when: job.terms === 'due_at_booking' || job.terms === 'deposit',
      why: 'By the terms the fee, or its deposit, is due before the visit.',
    },
    { kind: 'tenant_notice', when: job.tenant && job.facts.occupied !== 'vacant', why: 'A tenant is told in time before anybody enters.' },
    {
      kind: 'closed_house',
      when: job.services.includes('radon'),
      why: 'Whoever lives there closes windows and outer doors twelve hours before the monitor is placed, and keeps them closed.',
    },
    {
      kind: 'provider_document',
      when: (job.outside ?? []).length > 0,
      why: `The client gets what the outside provider found: ${(job.outside ?? []).join(', ')}.`,
    },
    {
      kind: 'same_pair',
      when: job.samePair ?? false,
      why: 'Somebody of this pair was at the house for another client. A lead inspector decides whether they may go.',
    },
    {
      kind: 'results',
      when: job.services.some((key) => AWAITED.includes(key)),
      why: 'The job is complete when the result has been told to the client.',
    },
  ];
};

const dueAt = (kind: NeedKind, start: Date, now: Date): Date => {
  if (kind === 'provider_document') return new Date(start.getTime() + 5 * 24 * HOUR);
  if (kind === 'results') return new Date(start.getTime() + 10 * 24 * HOUR);
  return kind === 'client_address' ? new Date(Math.min(start.getTime(), now.getTime() + 2 * HOUR)) : before(LEAD[kind] ?? 24, start, now);
};

/** The still-to-get list of a new job. Times are due before `start`; results are due after it. */
export const needsOf = (job: NeedsFor, start: Date, now: Date): Need[] =>
  asked(job)
    .filter(({ when }) => when)
    .map(({ kind, settled, why }) => ({ kind, state: settled ? 'settled' : 'open', dueAt: dueAt(kind, start, now), why }));

/** When a need of this kind is due for another start. */
export const needDue = (kind: NeedKind, start: Date, now: Date): Date => dueAt(kind, start, now);
