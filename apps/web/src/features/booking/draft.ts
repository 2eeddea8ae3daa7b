// The booking as it is typed, and what a hold makes of it.
import { DateTime } from 'luxon';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { PartyRole, Source, Terms } from '@backsight/contract/jobs';
import type { HoldBody } from '../../api/jobs.ts';
import { newId } from '../../api/ids.ts';
import { discountSent, NO_DISCOUNT, type TypedDiscount } from '../../ui/DiscountInputs.tsx';
import { localInput, toInstant } from '../../ui/time.ts';

export type Draft = {
  jobId: string;
  key: string;
  propertyId: string;
  callerId: string;
  clientId: string;
  known: boolean;
  caller: string;
  role: PartyRole;
  phone: string;
  email: string;
  client: string;
  address: string;
  town: string;
  /** The town is none of the firm's; then the ZIP code says where it is. */
  elsewhere: boolean;
  zip: string;
  /** Chosen by hand; empty: the one that was found. */
  state: string;
  lat: string;
  lon: string;
  facts: PropertyFacts;
  services: string[];
  fromDay: string;
  half: '' | 'morning' | 'afternoon';
  wishPerson: string;
  /** Hours of the day as typed, blank = the office's own. */
  earliest: string;
  latestEnd: string;
  /** On a day on which the agent who calls is at another visit. */
  withAgent: boolean;
  /** Given by hand. */
  discount: TypedDiscount;
  terms: Terms;
  tenant: boolean;
  source: Source;
  objectionOn: string;
  start: { startsAt: string; first: string; second: string | null } | null;
  /** The window that the client was told, as clock times; blank = the very start. */
  told: { from: string; until: string } | null;
  /** The price asked earlier from which this was typed; closed as booked once the time is held. */
  inquiry: { id: string; version: number } | null;
  /** Where it is not booked now: when to ask again, and what to know then. */
  followUpOn: string;
  note: string;
};

export const blankDraft = (today: string): Draft => ({
  jobId: newId(),
  key: newId(),
  propertyId: newId(),
  callerId: newId(),
  clientId: newId(),
  known: false,
  caller: '',
  role: 'client',
  phone: '',
  email: '',
  client: '',
  address: '',
  town: '',
  elsewhere: false,
  zip: '',
  state: '',
  lat: '',
  lon: '',
  facts: {},
  services: ['inspection'],
  fromDay: today,
  half: '',
  wishPerson: '',
  earliest: '',
  latestEnd: '',
  withAgent: false,
  discount: NO_DISCOUNT,
  terms: 'due_at_visit',
  tenant: false,
  source: '',
  objectionOn: '',
  start: null,
  told: null,
  inquiry: null,
  followUpOn: '',
  note: '',
});

/** Whether anything was said yet by whoever calls. */
export const untouched = ({ caller, phone, email, address, town, facts }: Draft): boolean =>
  [caller, phone, email, address, town].every((typed) => typed.trim() === '') && Object.keys(facts).length === 0;

const numberOf = (text: string): number | undefined => (text.trim() === '' || Number.isNaN(Number(text)) ? undefined : Number(text));

/** What is asked of the service to find the place: a ZIP code, where one is given. */
export const placeAsked = (draft: Draft): { town: string; zip: string } | null =>
  draft.elsewhere && /^\d{5}$/.test(draft.zip) && draft.town.trim() !== '' ? { town: draft.town.trim(), zip: draft.zip } : null;

/** The exact place when given, else the one found for the ZIP code, else the town's. */
export const placeOf = (
  draft: Draft,
  towns: readonly { name: string; lat: number; lon: number }[],
  byZip: { lat: number; lon: number } | undefined,
): { lat: number; lon: number } | null => {
  const [lat, lon] = [numberOf(draft.lat), numberOf(draft.lon)];
  if (lat !== undefined && lon !== undefined) return { lat, lon };
  if (draft.elsewhere) return byZip ? { lat: byZip.lat, lon: byZip.lon } : null;
  const town = towns.find(({ name }) => name === draft.town);
  return town ? { lat: town.lat, lon: town.lon } : null;
};

/** The day that prices: that of the start, once one is chosen, with its minute of the day; else the first day wished for. */
export function dayAsked({ start, fromDay }: Draft, zone: string): { day: string; startMinute: number | null } {
  if (!start) return { day: fromDay, startMinute: null };
  const at = DateTime.fromISO(start.startsAt, { zone });
  return { day: at.toFormat('yyyy-MM-dd'), startMinute: at.hour * 60 + at.minute };
}

/** The window told to the client on the day of the start. */
function toldOf({ start, told }: Draft, zone: string): { from: string; until: string } | null {
  if (!start || !told) return null;
  const day = localInput(DateTime.fromISO(start.startsAt, { zone }), zone).slice(0, 10);
  return { from: toInstant(`${day}T${told.from}`, zone), until: toInstant(`${day}T${told.until}`, zone) };
}

/** What a hold sends. The price is the one that was shown, and so is the state. */
export function holdBody(draft: Draft, toldCents: number, zone: string, state: string): HoldBody & { key: string } {
  const person = draft.known
    ? { id: draft.callerId }
    : {
        id: draft.callerId,
        name: draft.caller,
        ...(draft.phone ? { phone: draft.phone } : {}),
        ...(draft.email ? { email: draft.email } : {}),
      };
  const client = draft.role !== 'client' && draft.client ? [{ id: draft.clientId, role: 'client' as const, name: draft.client }] : [];
  const [lat, lon] = [numberOf(draft.lat), numberOf(draft.lon)];
  return {
    key: draft.key,
    id: draft.jobId,
    property: {
      id: draft.propertyId,
      address: draft.address,
      town: draft.town,
      ...(placeAsked(draft) ? { zip: draft.zip } : {}),
      ...(state ? { state } : {}),
      ...(lat !== undefined && lon !== undefined ? { lat, lon } : {}),
    },
    facts: draft.facts,
    services: draft.services,
    parties: [{ ...person, role: draft.role }, ...client],
    start: draft.start!,
    promised: toldOf(draft, zone),
    terms: draft.terms,
    tenant: draft.tenant,
    source: draft.source,
    objectionOn: draft.objectionOn || null,
    discount: discountSent(draft.discount),
    toldCents,
  };
}
