// What a phone needs to start its person's visits of today and tomorrow without signal.
import { shiftDay } from '@backsight/domain/shared/calendar';
import { canonicalText } from '@backsight/domain/sitework/canonical';
import type { Reader } from '@backsight/store/database';
import { placesOfVisits } from '@backsight/store/schedule/drives';
import { newestOffers, type OfferRow } from '@backsight/store/sitework/offline';
import { siteworkRules, type SiteworkRules } from '@backsight/store/sitework/rules';
import { visitsOfPerson, type VisitRow } from '@backsight/store/sitework/visit';
import { localDay } from '../firm/steps/localDay.ts';
import { revisionsInForce } from '../procedures/steps/inForce.ts';
import type { Actor } from '../run.ts';
import { firstPackageIdOf, itemIdOf, recordIdOf } from './steps/derivedId.ts';
import { isMember } from './steps/loadRecord.ts';
import { basisOfVisit, sameOffer } from './steps/offer.ts';
import { startOf } from './steps/startOf.ts';

type Asked = { personId: string; actor: Actor; now: Date };

/** Visits that are over are left out; those that run are in, so that a second phone can join. */
export async function readAhead(reader: Reader, { personId, actor, now }: Asked) {
  const { today } = await localDay(reader, now);
  const visits = (await visitsOfPerson(reader, personId, today, shiftDay(today, 1))).filter(
    (visit) => isMember(visit, actor) && (visit.state === 'booked' || visit.state === 'on_site'),
  );
  const ids = visits.map(({ id }) => id);
  const offers = new Map((await newestOffers(reader, personId, ids)).map((offer) => [offer.visitId, offer]));
  const places = new Map((await placesOfVisits(reader, ids)).map((place) => [place.visitId, place]));
  const revisions = await revisionsInForce(reader, now);
  const revisionIds = revisions.map(({ revisionId }) => revisionId);
  const rules = await siteworkRules(reader);
  const found = [];
  for (const visit of visits) {
    const start = await startOf(reader, visit, now);
    const offer = offers.get(visit.id) ?? null;
    found.push({ ...aheadOf(visit, rules, start, offer, revisionIds), place: placeOf(places.get(visit.id)) });
  }
  return { at: now.toISOString(), revisions: revisions.map(revisionJson), visits: found };
}

type Start = Awaited<ReturnType<typeof startOf>>;

function aheadOf(visit: VisitRow, rules: SiteworkRules, start: Start, offer: OfferRow | null, revisionIds: string[]) {
  const basis = basisOfVisit(visit, rules);
  const current = offer !== null && sameOffer(offer, { revisions: revisionIds, gateMissing: shut(start.gate), body: basis });
  return {
    start,
    recordId: visit.recordId ?? recordIdOf(visit.id),
    packageId: firstPackageIdOf(visit.id),
    offerId: current ? offer.id : null,
    itemIds: start.items.map((item) => itemIdOf(visit.id, item)),
    basis,
    revisionIds,
  };
}

const shut = (gate: Start['gate']): string[] => (gate.open ? [] : gate.missing);
const placeOf = (place: { lat: number | null; lon: number | null } | undefined) =>
  place && place.lat !== null && place.lon !== null ? { lat: place.lat, lon: place.lon } : null;

type Revision = Awaited<ReturnType<typeof revisionsInForce>>[number];
const revisionJson = ({ revisionId, procedureKey, title, system, number, steps }: Revision) => ({
  revisionId,
  procedureKey,
  title,
  system,
  number,
  steps: JSON.parse(canonicalText(steps)) as Record<string, unknown>[],
});
