// What a member of the pair is handed ahead: the basis of a record as it is at that moment.
import { canonicalText } from '@backsight/domain/sitework/canonical';
import type { OfferBody, OfferRow } from '@backsight/store/sitework/offline';
import type { VisitRow } from '@backsight/store/sitework/visit';

export const basisOfVisit = ({ day, facts, services, serviceNames, crewSize }: VisitRow): OfferBody => ({
  day,
  facts,
  services,
  serviceNames,
  crewSize,
});

type Offered = Pick<OfferRow, 'revisions' | 'gateMissing' | 'body'>;

/** Whether an offer still says what would be handed out now. */
export const sameOffer = (a: Offered, b: Offered): boolean => canonicalText(comparable(a)) === canonicalText(comparable(b));

const comparable = ({ revisions, gateMissing, body }: Offered) => ({
  revisions: [...revisions].sort(),
  missing: [...gateMissing].sort(),
  body,
});
