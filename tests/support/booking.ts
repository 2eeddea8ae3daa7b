// A caller on the phone: what the tests of booking ask, hold and look at.
import { randomUUID } from 'node:crypto';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { findStarts, type StartsInput } from '@backsight/usecases/schedule/findStarts';
import type { HoldInput } from '@backsight/usecases/jobs/holdJob';
import { BIRCHMERE } from './cast.ts';
import type { TestService } from './database.ts';

export const FACTS: PropertyFacts = {
  kind: 'single_family',
  yearBuilt: 1995,
  livingArea: 1800,
  foundation: ['basement'],
  heatingFuel: ['natural_gas'],
  waterSource: 'public',
  waste: 'public_sewer',
};
export const PLACE = { lat: BIRCHMERE[0], lon: BIRCHMERE[1] };

const ASKED: StartsInput = {
  place: PLACE,
  facts: FACTS,
  services: ['inspection'],
  visitKind: 'inspection',
  fromDay: '2026-05-13',
  days: 5,
  objectionOn: null,
  propertyId: null,
  limit: 60,
  withoutVisit: null,
};

/** The starts that the firm would offer now. */
export async function startsOf(service: TestService, ask: Partial<StartsInput> = {}) {
  const found = await findStarts(service.database.read, service.clock.now, { ...ASKED, ...ask });
  if (!found.ok) throw new Error(found.code);
  return found.value;
}

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
