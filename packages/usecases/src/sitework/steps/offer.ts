// What a member of the pair is handed ahead: the basis of a record as it is at that moment.
import { canonicalText } from '@backsight/domain/sitework/canonical';
import { doubleLookOf } from '@backsight/domain/sitework/doubleLook';
import type { OfferBody, OfferRow } from '@backsight/store/sitework/offline';
import type { SiteworkRules } from '@backsight/store/sitework/rules';
import type { VisitRow } from '@backsight/store/sitework/visit';

/** `doubleLookOneIn`: one inspection in so many looks at a system twice. */
export const basisOfVisit = (
  { id, kind, day, facts, services, serviceNames, crewSize }: VisitRow,
  { doubleLookOneIn }: Pick<SiteworkRules, 'doubleLookOneIn'>,
): OfferBody => ({
  day,
  facts,
  services,
  serviceNames,
  crewSize,
  doubleLook: kind === 'inspection' ? doubleLookOf(id, doubleLookOneIn) : null,
});

type Offered = Pick<OfferRow, 'revisions' | 'gateMissing' | 'body'>;

/** Whether an offer still says what would be handed out now. */
export const sameOffer = (a: Offered, b: Offered): boolean => canonicalText(comparable(a)) === canonicalText(comparable(b));

const comparable = ({ revisions, gateMissing, body }: Offered) => ({
  revisions: [...revisions].sort(),
  missing: [...gateMissing].sort(),
  body,
});
