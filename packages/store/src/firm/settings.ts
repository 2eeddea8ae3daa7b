// The firm's own settings: how it is reached, its offices, closed days, insurance and who may approve how much.
import type { Prisma } from '../generated/client.ts';
import { dayIn, touched, type Reader, type Tx } from '../database.ts';

export type FirmSettings = {
  name: string;
  phone: string;
  email: string;
  address: string;
  zone: string;
  holdMinutes: number;
  graceDays: number;
  everySigner: boolean;
  reportDueDays: number;
  paperSize: 'letter' | 'a4';
  onCallPhone: string;
};
export type WholeFirm = FirmSettings & { demo: boolean; version: number };

export const findWholeFirm = async (reader: Reader): Promise<WholeFirm | null> =>
  (
    await reader.rows<WholeFirm>(
      `SELECT name, phone, email, address, zone, demo, version, hold_minutes AS "holdMinutes", grace_days AS "graceDays", every_signer AS "everySigner", report_due_days AS "reportDueDays", paper_size AS "paperSize", on_call_phone AS "onCallPhone" FROM firm`,
    )
  )[0] ?? null;

/** Writes the one firm. Constraints: firm_pkey when there is one, firm_only_one. */
export async function saveFirm(tx: Tx, firm: FirmSettings & { setUpAt: Date }): Promise<void> {
  await tx.db.firm.create({ data: firm });
}

/** Changes the firm if the version is still the one that was seen; answers whether it was. */
export const updateFirm = async (tx: Tx, version: number, settings: Partial<FirmSettings>): Promise<boolean> =>
  (await tx.db.firm.updateMany({ where: { id: 1, version }, data: { ...settings, version: { increment: 1 } } })).count === 1;

export type OfficeRow = {
  id: string;
  name: string;
  zone: string;
  jurisdiction: string;
  address: string;
  lat: number;
  lon: number;
  hours: unknown;
};

export const listOffices = (reader: Reader): Promise<OfficeRow[]> =>
  reader.rows<OfficeRow>('SELECT id::text AS id, name, zone, jurisdiction, address, lat, lon, hours FROM office ORDER BY name');

export async function saveOffice(tx: Tx, office: Omit<OfficeRow, 'hours'> & { hours: unknown }): Promise<void> {
  await tx.db.office.create({ data: { ...office, hours: office.hours as Prisma.InputJsonValue } });
}

/** Changes an office; answers whether there is one. */
export const updateOffice = async (
  tx: Tx,
  id: string,
  edit: { name: string; address: string; lat: number; lon: number; hours: unknown },
): Promise<boolean> =>
  (await tx.db.office.updateMany({ where: { id }, data: { ...edit, hours: edit.hours as Prisma.InputJsonValue } })).count === 1;

export const listClosedDays = (reader: Reader, from: string): Promise<{ day: string; name: string }[]> =>
  reader.rows<{ day: string; name: string }>('SELECT day::text AS day, name FROM closed_day WHERE day >= $1::date ORDER BY day', [from]);

export async function putClosedDay(tx: Tx, day: string, name: string): Promise<void> {
  await tx.db.closedDay.upsert({ where: { day: dayIn(day) }, create: { day: dayIn(day), name }, update: { name } });
}

export const deleteClosedDay = (tx: Tx, day: string): Promise<number> => touched(tx, 'DELETE FROM closed_day WHERE day = $1::date', day);
