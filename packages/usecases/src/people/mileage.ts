// Miles driven for the firm: entered by day, compared with the plan, listed for repayment.
import { decides } from '@backsight/domain/people/absences';
import { periodFits, repaidCents, tenthsDriven, type Driven } from '@backsight/domain/people/mileage';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { csvText, type Cell } from '@backsight/documents/csv';
import { routeTenths } from '@backsight/scheduling/distance';
import type { Reader } from '@backsight/store/database';
import { findKitItem } from '@backsight/store/people/kit';
import { drivesBetween, mileageBetween, mileageRate, saveMileage, setMileageRate, withdrawMileage } from '@backsight/store/people/mileage';
import { findPerson, listPeople } from '@backsight/store/people';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import type { Act, Actor, Work } from '../run.ts';

const mayKeepFor = (actor: Actor, personId: string): boolean => actor.kind === 'person' && (actor.id === personId || decides(actor.roles));

export type MileageInput = Driven & { id: string; personId: string; day: string; vehicleId: string | null; note: string };

/** Enters the miles of a day; what was entered before for it is kept, withdrawn. */
export const enterMileage: Act<MileageInput, { id: string; tenths: number }> = { operation: 'people.enter-mileage', run: enter };

async function enter(work: Work, input: MileageInput): Promise<Outcome<{ id: string; tenths: number }>> {
  const { id, personId, day, odometerStart, odometerEnd, vehicleId, note } = input;
  if (work.actor.kind !== 'person' || !mayKeepFor(work.actor, personId)) return refuse('not-allowed');
  if (!(await findPerson(work.tx, personId))) return refuse('not-found', { thing: 'person' });
  const { today } = await localDay(work.tx, work.now);
  if (day > today) return refuse('mileage-in-future', {}, 'day');
  const driven = tenthsDriven(input);
  if (!driven.ok) return driven;
  const vehicle = vehicleId === null ? null : await findKitItem(work.tx, vehicleId);
  if (vehicleId !== null && (vehicle?.kind !== 'vehicle' || vehicle.endedOn !== null)) return refuse('not-a-vehicle', {}, 'vehicleId');
  const before = await withdrawMileage(work.tx, personId, day, work.now);
  const row = { id, personId, day, tenths: driven.value, odometerStart, odometerEnd, vehicleId, vehicle: null, note };
  await saveMileage(work.tx, row, { recordedBy: work.actor.id, recordedAt: work.now });
  await work.did('person', personId, { mileageId: id, day, tenths: driven.value, vehicleId, corrected: before > 0 });
  return accept({ id, tenths: driven.value });
}

export const changeMileageRate: Act<{ tenthCents: number }, { tenthCents: number }> = {
  operation: 'people.change-mileage-rate',
  run: async (work, { tenthCents }) => {
    const before = await mileageRate(work.tx);
    await setMileageRate(work.tx, tenthCents);
    await work.did('firm', FIRM_THING, { mileageTenthCentsBefore: before, mileageTenthCents: tenthCents });
    return accept({ tenthCents });
  },
};

export type MileageDay = {
  personId: string;
  name: string;
  day: string;
  plannedTenths: number;
  entered: {
    id: string;
    tenths: number;
    odometerStart: number | null;
    odometerEnd: number | null;
    vehicleId: string | null;
    vehicle: string | null;
    note: string;
  } | null;
  differenceTenths: number | null;
  cents: number;
};
export type MileageList = { rateTenthCents: number; days: MileageDay[] };
export type MileageAsk = { from: string; to: string; personId: string | null };

/** Planned and entered miles by person and day. Planned: the estimated road from the home base through the day's visits and back. */
export async function readMileage(reader: Reader, ask: MileageAsk, by: { actor: Actor; now: Date }): Promise<Outcome<MileageList>> {
  if (by.actor.kind !== 'person') return refuse('not-allowed');
  if (ask.personId !== by.actor.id && !decides(by.actor.roles)) return refuse('not-allowed');
  const fits = periodFits(ask.from, ask.to);
  if (!fits.ok) return fits;
  const { zone } = await localDay(reader, by.now);
  const names = new Map((await listPeople(reader)).map(({ id, name }) => [id, name]));
  const rate = await mileageRate(reader);
  const days = new Map<string, MileageDay>();
  const at = (personId: string, day: string): MileageDay => {
    const key = `${day} ${personId}`;
    const known = days.get(key) ?? {
      personId,
      name: names.get(personId) ?? '',
      day,
      plannedTenths: 0,
      entered: null,
      differenceTenths: null,
      cents: 0,
    };
    days.set(key, known);
    return known;
  };
  for (const { personId, day, homeLat, homeLon, places } of await drivesBetween(reader, { ...ask, zone }))
    at(personId, day).plannedTenths = routeTenths({ lat: homeLat, lon: homeLon }, places);
  for (const { personId, day, ...entered } of await mileageBetween(reader, ask)) {
    const row = at(personId, day);
    row.entered = entered;
    row.differenceTenths = entered.tenths - row.plannedTenths;
    row.cents = repaidCents(entered.tenths, rate);
  }
  return accept({
    rateTenthCents: rate,
    days: [...days.values()].toSorted((a, b) => a.day.localeCompare(b.day) || a.name.localeCompare(b.name)),
  });
}

const HEAD: Cell[] = [
  'Day',
  'Person',
  'Miles planned',
  'Miles driven',
  'Difference',
  'Odometer start',
  'Odometer end',
  'Vehicle',
  'Cents per mile',
  'Amount USD',
  'Note',
];
const miles = (tenths: number): string => (tenths / 10).toFixed(1);

/** The list for repayment as a table; only days with miles entered. */
export async function exportMileage(reader: Reader, ask: MileageAsk, by: { actor: Actor; now: Date }): Promise<Outcome<string>> {
  const list = await readMileage(reader, ask, by);
  if (!list.ok) return list;
  const { rateTenthCents, days } = list.value;
  const rows = days.flatMap(({ day, name, plannedTenths, entered, differenceTenths, cents }): Cell[][] =>
    entered === null
      ? []
      : [
          [
            day,
            name,
            miles(plannedTenths),
            miles(entered.tenths),
            (differenceTenths ?? 0) / 10,
            entered.odometerStart,
            entered.odometerEnd,
            entered.vehicle,
            (rateTenthCents / 10).toFixed(1),
            (cents / 100).toFixed(2),
            entered.note,
          ],
        ],
  );
  return accept(csvText([HEAD, ...rows]));
}
