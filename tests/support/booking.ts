// A caller on the phone: what the tests of booking ask, hold and look at.
import { findStarts, type StartsInput } from '@backsight/usecases/schedule/findStarts';
import { BIRCHMERE } from './cast.ts';
import type { TestService } from './database.ts';
import { FACTS } from './holdBody.ts';

export { FACTS, holdBody } from './holdBody.ts';

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
