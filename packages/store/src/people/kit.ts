// The firm's kit: kinds and single pieces with serial number, calibration and checks.
import type { CheckKind } from '@backsight/domain/people/kit';
import { dayIn, type Reader, type Tx } from '../database.ts';

export type KitKindRow = {
  key: string;
  name: string;
  calibrated: boolean;
  carriedByAll: boolean;
  worn: boolean;
  ofKind: string | null;
  minFeet: number | null;
};
export type KitItemRow = {
  id: string;
  officeId: string;
  kind: string;
  name: string;
  serial: string;
  calibratedUntil: string | null;
  endedOn: string | null;
  note: string;
  seats: number | null;
  ladderFeet: number | null;
  size: string | null;
};

const ITEM = `SELECT i.id::text AS id, i.office_id::text AS "officeId", i.kind, k.name, i.serial, i.calibrated_until::text AS "calibratedUntil", i.ended_on::text AS "endedOn", i.note, i.seats, i.ladder_feet AS "ladderFeet", i.size FROM kit_item i JOIN kit_kind k ON k.key = i.kind`;

const KIND = `SELECT key, name, calibrated, carried_by_all AS "carriedByAll", worn, of_kind AS "ofKind", min_feet AS "minFeet" FROM kit_kind`;

export const listKitKinds = (reader: Reader): Promise<KitKindRow[]> => reader.rows<KitKindRow>(`${KIND} ORDER BY name`);
export const findKitKind = async (reader: Reader, key: string): Promise<KitKindRow | null> =>
  (await reader.rows<KitKindRow>(`${KIND} WHERE key = $1`, [key]))[0] ?? null;

/** Every piece, those in service first. */
export const listKitItems = (reader: Reader): Promise<KitItemRow[]> =>
  reader.rows<KitItemRow>(`${ITEM} ORDER BY i.ended_on IS NOT NULL, k.name, i.serial`);
export const findKitItem = async (reader: Reader, id: string): Promise<KitItemRow | null> =>
  (await reader.rows<KitItemRow>(`${ITEM} WHERE i.id = $1::uuid`, [id]))[0] ?? null;

/** Adds a piece. Constraint: kit_item_serial_key. */
export async function saveKitItem(tx: Tx, item: Omit<KitItemRow, 'name' | 'endedOn'>): Promise<void> {
  await tx.db.kitItem.create({ data: { ...item, calibratedUntil: item.calibratedUntil === null ? null : dayIn(item.calibratedUntil) } });
}

export type KitEdit = {
  calibratedUntil?: string | null;
  endedOn?: string | null;
  note?: string;
  seats?: number | null;
  ladderFeet?: number | null;
  size?: string | null;
};

export async function updateKitItem(tx: Tx, id: string, edit: KitEdit): Promise<void> {
  const date = (day: string | null | undefined) => (day === undefined || day === null ? day : dayIn(day));
  await tx.db.kitItem.update({
    where: { id },
    data: {
      note: edit.note,
      seats: edit.seats,
      ladderFeet: edit.ladderFeet,
      size: edit.size,
      calibratedUntil: date(edit.calibratedUntil),
      endedOn: date(edit.endedOn),
    },
  });
}

/** A check that a piece in service needs, and when it was last passed; null = never. */
export type KitCheckRow = { itemId: string; checkKind: CheckKind; everyDays: number; doneOn: string | null };

/** Checks of every piece in service, or of one piece, in or out of service. */
export const listKitChecks = (reader: Reader, itemId: string | null = null): Promise<KitCheckRow[]> =>
  reader.rows<KitCheckRow>(
    `SELECT i.id::text AS "itemId", n.check_kind AS "checkKind", n.every_days AS "everyDays", (SELECT max(c.on_day)::text FROM kit_check c WHERE c.item_id = i.id AND c.check_kind = n.check_kind AND c.passed) AS "doneOn"
     FROM kit_item i JOIN kit_check_need n ON n.kind = i.kind WHERE CASE WHEN $1::uuid IS NULL THEN i.ended_on IS NULL ELSE i.id = $1::uuid END ORDER BY i.id, n.check_kind`,
    [itemId],
  );

export type NewKitCheck = {
  id: string;
  itemId: string;
  checkKind: CheckKind | 'on_site';
  onDay: string;
  passed: boolean;
  note: string;
  byId: string;
  visitId: string | null;
  recordedAt: Date;
};

/** Adds what was checked; nothing changes it later. */
export async function saveKitCheck(tx: Tx, check: NewKitCheck): Promise<void> {
  await tx.db.kitCheck.create({ data: { ...check, onDay: dayIn(check.onDay) } });
}

/** How often a kind of kit needs each check. */
export async function setCheckNeeds(tx: Tx, kind: string, needs: readonly { checkKind: CheckKind; everyDays: number }[]): Promise<void> {
  await tx.db.kitCheckNeed.deleteMany({ where: { kind } });
  await tx.db.kitCheckNeed.createMany({ data: needs.map((need) => ({ ...need, kind })) });
}

/** Kinds that are worn, each with the size of the person; null = not on file. */
export const sizesOf = (reader: Reader, personId: string): Promise<{ kind: string; name: string; size: string | null }[]> =>
  reader.rows(
    'SELECT k.key AS kind, k.name, s.size FROM kit_kind k LEFT JOIN person_size s ON s.kind = k.key AND s.person_id = $1::uuid WHERE k.worn ORDER BY k.name',
    [personId],
  );

/** The sizes of a person in place of those on file; null = not known. */
export async function setSizes(tx: Tx, personId: string, sizes: readonly { kind: string; size: string | null }[]): Promise<void> {
  await tx.db.personSize.deleteMany({ where: { personId } });
  const known = sizes.flatMap(({ kind, size }) => (size === null ? [] : [{ personId, kind, size }]));
  if (known.length > 0) await tx.db.personSize.createMany({ data: known });
}
