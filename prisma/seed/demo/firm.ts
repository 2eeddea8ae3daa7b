// The firm before its first job: settings, people with their papers and hours, kit, insurance, starter set and procedure book.
import { shiftDay } from '@backsight/domain/shared/calendar';
import { dayIn, type Tx } from '@backsight/store/database';
import { addAuditRow } from '@backsight/store/audit';
import { saveStarter } from '@backsight/store/starter';
import { FIRM_THING } from '@backsight/usecases/firm/steps/localDay';
import { OFFICE_HOURS } from '../starter/rulePack.ts';
import { STARTER } from '../starter/starter.ts';
import type { DemoCalendar } from './calendar.ts';
import { loadShortBook } from './history/shortBook.ts';
import { addInsurance } from './insurance.ts';
import { addTextDraft } from './texts.ts';
import { addWorkingTime } from './workingTime.ts';
import { emailOf, everybody, FIRM, inspectors, OFFICE, OFFICE_ID, PEOPLE, type Person } from './people.ts';

const MONITORS = 9;

/** Days before today on which the demo firm's records begin, and on which its whole procedure book came into force. */
export const BEGAN_DAYS_AGO = 930;
export const WHOLE_BOOK_DAYS_AGO = 98;

export type Begin = {
  tx: Tx;
  calendar: DemoCalendar;
  newId: (at: Date) => string;
  passwordHash: string;
  awayWorkdays: [number, number];
  /** Starts today at hours at which nobody would work. */ quiet: readonly Date[];
};

/** Writes the firm. Everything is dated around today. */
export async function begin({ tx, calendar, newId, passwordHash, awayWorkdays, quiet }: Begin): Promise<void> {
  const at = calendar.at(shiftDay(calendar.today, -BEGAN_DAYS_AGO), 9);
  const id = () => newId(at);
  const { db } = tx;
  await db.firm.create({ data: { ...FIRM, demo: true, states: [OFFICE.jurisdiction], setUpAt: at } });
  await db.office.create({ data: { id: OFFICE_ID, ...OFFICE, zone: FIRM.zone, hours: OFFICE_HOURS } });
  await db.closedDay.createMany({ data: calendar.closed.map(({ day, name }) => ({ day: dayIn(day), name })) });
  for (const one of everybody) await addPerson(tx, one, { at, id, passwordHash, today: calendar.today });
  await saveStarter(tx, STARTER, { inForceFrom: at, recordedAt: at, newId: id });
  await addPapers(tx, calendar.today, id);
  await loadShortBook(tx, { at, newId, authorId: PEOPLE.ruth.id, approverId: PEOPLE.owner.id });
  await addTimes(tx, calendar, { at, id, awayWorkdays });
  const kit = await addKit(tx, calendar.today, id);
  await addWorkingTime(tx, { calendar, at, id, kit, quiet });
  await addInsurance(tx, calendar.today, id);
  await addProviders(tx, calendar.today, id);
  await addTextDraft(tx, calendar, newId);
  await addAuditRow(tx, {
    id: id(),
    actorKind: 'service',
    actorId: null,
    operation: 'firm.set-up',
    thingKind: 'firm',
    thingId: FIRM_THING,
    details: { ownerId: PEOPLE.owner.id, officeId: OFFICE_ID, examples: true },
    at,
  });
}

type With = { at: Date; id: () => string };

async function addPerson(tx: Tx, one: Person, w: With & { passwordHash: string; today: string }): Promise<void> {
  const [homeAddress, homeLat, homeLon] = one.home;
  const number = 150 + everybody.indexOf(one);
  await tx.db.person.create({
    data: {
      id: one.id,
      officeId: OFFICE_ID,
      name: one.name,
      email: emailOf(one),
      phone: `920-555-0${number}`,
      passwordHash: w.passwordHash,
      trainee: one.trainee,
      mayLead: !one.trainee,
      homeAddress,
      homeLat,
      homeLon,
      startedOn: dayIn(shiftDay(w.today, -365 * one.yearsHere)),
      recordedAt: w.at,
      roles: { create: one.roles.map((role) => ({ role })) },
    },
  });
}

const KINDS = { insects: 'wood_insects', radon: 'radon', infrared: 'infrared', roof: 'roof_access' } as const;

/** The license of a term of two years, and that of the term before for those who were there. */
const termsOf = (one: Person, today: string) =>
  [0, 730].slice(0, one.yearsHere > 2 ? 2 : 1).map((back) => {
    const until = shiftDay(today, one.licenseDaysLeft - back);
    return { personId: one.id, kind: 'home_inspector', fromDay: dayIn(shiftDay(until, -729)), untilDay: dayIn(until) };
  });

async function addPapers(tx: Tx, today: string, id: () => string): Promise<void> {
  for (const [at, one] of inspectors.entries()) {
    await tx.db.license.createMany({ data: termsOf(one, today).map((term) => ({ ...term, id: id(), number: `TC-${3120 + at * 37}` })) });
    const kinds = (Object.keys(one.papers) as (keyof typeof KINDS)[]).map((key) => KINDS[key]);
    await tx.db.personQualification.createMany({
      data: kinds.map((kind) => ({ id: id(), personId: one.id, kind, fromDay: dayIn(shiftDay(today, -500 - at * 11)) })),
    });
  }
}

async function addTimes(tx: Tx, calendar: DemoCalendar, w: With & { awayWorkdays: [number, number] }): Promise<void> {
  const since = dayIn(shiftDay(calendar.today, -365));
  const spans = inspectors.flatMap((one) =>
    one.weekdays.map((weekday) => ({ id: w.id(), personId: one.id, weekday, startMinute: one.start, endMinute: one.end, fromDay: since })),
  );
  await tx.db.workPattern.createMany({ data: spans });
  const away = (who: Person, from: number, to: number, reason: string) => ({
    id: w.id(),
    personId: who.id,
    startsAt: calendar.at(calendar.workday(from), 0),
    endsAt: calendar.at(shiftDay(calendar.workday(to), 1), 0),
    reason,
    recordedAt: w.at,
  });
  const hours = (who: Person, day: number, from: number, to: number, reason: string) => ({
    id: w.id(),
    personId: who.id,
    startsAt: calendar.at(calendar.workday(day), from),
    endsAt: calendar.at(calendar.workday(day), to),
    reason,
    recordedAt: w.at,
  });
  await tx.db.absence.createMany({
    data: [
      away(PEOPLE.gus, ...w.awayWorkdays, 'family leave'),
      away(PEOPLE.curtis, 5, 9, 'vacation'),
      away(PEOPLE.freya, -28, -24, 'vacation'),
      away(PEOPLE.elio, 0, 0, 'continuing education'),
      hours(PEOPLE.amos, 1, 12, 17, 'dentist'),
      hours(PEOPLE.dana, 2, 8, 12, 'school meeting'),
      away(PEOPLE.tomas, -41, -40, 'sick'),
    ],
  });
  const pair = (a: Person, b: Person) => (a.id < b.id ? { aId: a.id, bId: b.id } : { aId: b.id, bId: a.id });
  await tx.db.pairingRule.create({
    data: {
      id: w.id(),
      kind: 'never_together',
      ...pair(PEOPLE.bea, PEOPLE.curtis),
      reason: 'Married: their second look would not be independent.',
    },
  });
  const freePair = {
    id: w.id(),
    kind: 'never_together',
    ...pair(PEOPLE.gus, PEOPLE.nora),
    reason: 'Uncle and niece: somebody else trains her.',
  };
  await tx.db.pairingRule.create({ data: freePair });
}

/** Serial numbers of the radon monitors, as `addKit` gives them. */
export const MONITOR_SERIALS = Array.from({ length: MONITORS }, (_, n) => `RAD-${200 + n}`);

const POOL: readonly (readonly [string, number])[] = [
  ['ladder', 6],
  ['moisture_meter', 7],
  ['gas_detector', 6],
  ['carbon_monoxide_meter', 6],
  ['infrared_camera', 3],
  ['radon_monitor', MONITORS],
];

const LADDER_FEET = [40, 28, 40, 28, 40, 24];
const FITS = ['L', 'M', 'M', 'L', 'S', 'XL'];

/** What is worn: a respirator and two suits for each inspector in his size, so that a size may run short only when one fails. */
async function addSizes(tx: Tx, id: () => string): Promise<void> {
  const worn = inspectors.flatMap((one, n) => {
    const size = FITS[n % FITS.length]!;
    return [
      { personId: one.id, kind: 'respirator', size },
      { personId: one.id, kind: 'crawl_suit', size },
    ];
  });
  await tx.db.personSize.createMany({ data: worn });
  await tx.db.kitItem.createMany({
    data: worn.map(({ kind, size }, n) => ({
      id: id(),
      officeId: OFFICE_ID,
      kind,
      serial: `${kind === 'respirator' ? 'RES' : 'SUI'}-${size}-${101 + n}`,
      calibratedUntil: null,
      note: '',
      size,
    })),
  });
}

/** Calibrated pieces are due at different times; one moisture meter is away for it. */
async function addKit(tx: Tx, today: string, id: () => string): Promise<{ id: string; kind: string }[]> {
  const calibrated = new Set<string>(STARTER.kitKinds.filter((kind) => kind.calibrated).map(({ key }) => key));
  const items = POOL.flatMap(([kind, count], row) =>
    Array.from({ length: count }, (_, n) => {
      const inCalibration = kind === 'moisture_meter' && n === 0;
      const daysLeft = inCalibration ? -3 : 25 + (((row * 5 + n) * 47) % 330);
      return {
        id: id(),
        officeId: OFFICE_ID,
        kind,
        serial: `${kind.slice(0, 3).toUpperCase()}-${100 + row * 20 + n}`,
        calibratedUntil: calibrated.has(kind) ? dayIn(shiftDay(today, daysLeft)) : null,
        note: inCalibration ? 'at the calibration laboratory' : '',
        ladderFeet: kind === 'ladder' ? LADDER_FEET[n % LADDER_FEET.length]! : null,
      };
    }),
  );
  await tx.db.kitItem.createMany({ data: items });
  await addSizes(tx, id);
  return items;
}

async function addProviders(tx: Tx, today: string, id: () => string): Promise<void> {
  const papers = { licenseUntil: dayIn(shiftDay(today, 240)), insuranceUntil: dayIn(shiftDay(today, 190)) };
  await tx.db.provider.createMany({
    data: [
      {
        id: id(),
        name: 'Sandbar Well Drilling',
        phone: '920-555-0191',
        serviceKey: 'well_inspection',
        contractsWithUs: false,
        costCents: 27_500,
        minutes: 60,
        ...papers,
      },
      {
        id: id(),
        name: 'Cattail Septic Evaluations',
        phone: '920-555-0192',
        serviceKey: 'septic',
        contractsWithUs: false,
        costCents: 36_000,
        minutes: 90,
        ...papers,
      },
      {
        id: id(),
        name: 'Lateral Look Sewer Cameras',
        phone: '920-555-0193',
        serviceKey: 'sewer_camera',
        contractsWithUs: true,
        costCents: 18_000,
        minutes: 45,
        ...papers,
      },
      {
        id: id(),
        name: 'Reedbed Drain Cameras',
        phone: '920-555-0194',
        serviceKey: 'sewer_camera',
        contractsWithUs: true,
        costCents: 19_500,
        minutes: 45,
        ...papers,
        insuranceUntil: dayIn(shiftDay(today, 19)),
      },
    ],
  });
}
