// By what somebody or something in a spreadsheet is known again, and where its places are.
import type { Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { placeOf, type FoundPlace } from '../../../jobs/steps/place.ts';
import { sentenceOf } from '../../../sitework/steps/sentence.ts';

export type Place = Pick<FoundPlace, 'lat' | 'lon' | 'zip' | 'state' | 'placeBy'>;
export type Placed = Place | { says: string };

/** Answers where a town or ZIP code is, or why that is not known; each is looked for once. */
export function placesOf(reader: Reader): (given: { town: string; zip: string | null }) => Promise<Placed> {
  const known = new Map<string, Promise<Placed>>();
  return ({ town, zip }) => {
    const key = `${zip ?? ''}|${low(town)}`;
    let found = known.get(key);
    if (!found) known.set(key, (found = placeOf(reader, { town, ...(zip === null ? {} : { zip }) }).then(said)));
    return found;
  };
}

/** A town that the firm does not know may still be placed by a ZIP code. */
const said = (found: Outcome<FoundPlace>): Placed => {
  if (found.ok) return found.value;
  return {
    says:
      found.code === 'town-not-known'
        ? `${sentenceOf(found).split('. ')[0]!.replace(/\.$/, '')}. With a ZIP code its place would be known.`
        : sentenceOf(found),
  };
};

/** Small letters and single blanks, as names are compared. */
export const low = (text: string): string => text.replace(/\s+/g, ' ').trim().toLowerCase();

/** Digits of a phone number without the country. */
const digits = (phone: string): string => phone.replace(/\D/g, '').replace(/^1(?=\d{10}$)/, '');

/** A client is the same by the e-mail address, else by name and phone, else by the name alone where there is neither. */
export const partyKey = ({ name, email, phone }: { name: string; email: string | null; phone: string | null }): string =>
  email === null ? `${low(name)}|${phone === null ? '' : digits(phone)}` : low(email);
