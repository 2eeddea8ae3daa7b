// What a hold sends, for tests and benches.
import { randomUUID } from 'node:crypto';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { HoldInput } from '@backsight/usecases/jobs/holdJob';

export const FACTS: PropertyFacts = {
  kind: 'single_family',
  yearBuilt: 1995,
  livingArea: 1800,
  foundation: ['basement'],
  heatingFuel: ['natural_gas'],
  waterSource: 'public',
  waste: 'public_sewer',
};

let street = 100;

/** What a hold sends: a new house, a new client with an address. */
export function holdBody(start: { startsAt: string; first: string; second: string | null }, more: Partial<HoldInput> = {}): HoldInput {
  street += 1;
  return {
    id: randomUUID(),
    property: { id: randomUUID(), address: `${street} Alder Street`, town: 'Birchmere' },
    facts: FACTS,
    services: ['inspection'],
    parties: [{ id: randomUUID(), role: 'client', name: `Client ${street}`, email: `client${street}@test.example`, phone: '920-555-0140' }],
    start: { startsAt: start.startsAt, first: start.first, second: start.second },
    terms: 'due_at_visit',
    tenant: false,
    source: '',
    clientAttends: true,
    objectionOn: null,
    toldCents: null,
    ...more,
  };
}
