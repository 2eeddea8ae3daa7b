// Sets up a real firm in an empty database: the firm, its office, its owner, and the starter set when it is wanted.
import { createHash, timingSafeEqual } from 'node:crypto';
import tzLookup from '@photostructure/tz-lookup';
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { stateOfZip } from '@backsight/domain/shared/stateOfZip';
import { hoursInOrder, zoneKnown, type WeekHours } from '@backsight/domain/firm/rules';
import { passwordAllowed } from '@backsight/domain/people/passwords';
import { findFirm } from '@backsight/store/firm';
import { saveFirm, saveOffice } from '@backsight/store/firm/settings';
import { savePerson } from '@backsight/store/people';
import { saveFirmStates } from '@backsight/store/firm/rulePacks';
import { saveStarter, type StarterRows } from '@backsight/store/starter';
import type { Reader } from '@backsight/store/database';
import { townsAround, zipPlace } from '../jobs/steps/zipPlace.ts';
import { loadBook } from '../procedures/steps/loadBook.ts';
import { hashPassword } from '../people/steps/password.ts';
import type { Act, Work } from '../run.ts';
import { FIRM_THING } from './steps/localDay.ts';

/** The example set of services, fees, rules, texts and procedures that a firm may begin with. */
export type StarterSet = StarterRows & { procedures: Parameters<typeof loadBook>[1]['procedures'] };

export type SetUpInput = {
  code: string;
  /** What is left out (zone, place, state) is that of the office's ZIP code. */
  firm: { name: string; phone: string; email: string; address: string; zone?: string | undefined; onCallPhone: string };
  office: { id: string; name: string; address?: string | undefined; hours: WeekHours } & Partial<Where>;
  owner: { id: string; name: string; email: string; phone: string; password: string };
  beginWithExamples: boolean;
};

type Where = { zip: string; jurisdiction: string; lat: number; lon: number };

/** True while there is no firm. */
export const setUpNeeded = async (reader: Reader): Promise<boolean> => (await findFirm(reader)) === null;

export const codeDigest = (code: string): Buffer => createHash('sha256').update(code.trim().toLowerCase()).digest();

/** `codeSha256` is the digest of the code that the start printed; null = this start takes no set-up. */
export const setUp = (parts: { codeSha256: Buffer | null; starter: StarterSet }): Act<SetUpInput, { id: string }> => ({
  operation: 'firm.set-up',
  run: async (work, input) => {
    if (!(await setUpNeeded(work.tx))) return refuse('already-set-up');
    if (parts.codeSha256 === null || !timingSafeEqual(parts.codeSha256, codeDigest(input.code)))
      return refuse('set-up-code-wrong', {}, 'code');
    return begin(work, input, parts.starter);
  },
});

async function begin(work: Work, input: SetUpInput, starter: StarterSet): Promise<Outcome<{ id: string }>> {
  const found = await placeOfOffice(input);
  if (!found.ok) return found;
  const { firm, office } = found.value;
  const { owner } = input;
  for (const check of [
    within('firm', zoneKnown(firm.zone)),
    within('owner', passwordAllowed(owner.password, { firm: firm.name, name: owner.name, email: owner.email })),
    hoursInOrder(office.hours, 'office.hours'),
  ])
    if (!check.ok) return check;
  await saveFirm(work.tx, {
    ...firm,
    holdMinutes: 20,
    graceDays: 2,
    everySigner: true,
    reportDueDays: 2,
    paperSize: 'letter',
    setUpAt: work.now,
  });
  await saveOffice(work.tx, { ...office, zone: firm.zone });
  await saveFirmStates(work.tx, [office.jurisdiction]);
  await savePerson(work.tx, {
    id: owner.id,
    officeId: office.id,
    name: owner.name,
    email: owner.email,
    phone: owner.phone,
    passwordHash: await hashPassword(owner.password),
    trainee: false,
    mayLead: true,
    homeAddress: office.address,
    homeLat: office.lat,
    homeLon: office.lon,
    startedOn: DateTime.fromJSDate(work.now, { zone: firm.zone }).toFormat('yyyy-MM-dd'),
    roles: ['owner'],
    recordedAt: work.now,
  });
  if (input.beginWithExamples) await loadExamples(work, { ...starter, towns: await townsAround(office) }, owner.id);
  await work.did('firm', FIRM_THING, { ownerId: owner.id, officeId: office.id, examples: input.beginWithExamples });
  return accept({ id: owner.id });
}

/** The office with its place, state and zone: as they were given, else by its ZIP code. */
async function placeOfOffice({ firm, office: { zip, ...office } }: SetUpInput) {
  const { lat, lon } = office;
  const place = lat !== undefined && lon !== undefined ? { lat, lon } : zip === undefined ? null : await zipPlace(zip);
  if (!place)
    return zip === undefined ? refuse('office-place-missing', {}, 'office.zip') : refuse('office-zip-not-known', { zip }, 'office.zip');
  const jurisdiction = office.jurisdiction ?? (zip === undefined ? undefined : stateOfZip(zip));
  if (!jurisdiction) return refuse('office-place-missing', {}, 'office.zip');
  return accept({
    firm: { ...firm, zone: firm.zone ?? tzLookup(place.lat, place.lon) },
    office: { ...office, address: office.address ?? firm.address, jurisdiction, lat: place.lat, lon: place.lon },
  });
}

/** The procedures come with the program, so their author is the service and the owner, who chose them, is the second person. */
async function loadExamples(work: Work, starter: StarterSet, ownerId: string): Promise<void> {
  const { tx, now, newId } = work;
  await saveStarter(tx, starter, { inForceFrom: now, recordedAt: now, newId });
  await loadBook(tx, { procedures: starter.procedures, authorId: FIRM_THING, approverId: ownerId, inForceFrom: now, at: now, newId });
}

/** The same outcome with its field inside a part of the input. */
const within = (part: string, outcome: Outcome<null>): Outcome<null> =>
  outcome.ok || !outcome.field ? outcome : { ...outcome, field: `${part}.${outcome.field}` };
