// The firm's kit: kinds and single pieces with serial number and calibration.
import { dayIn, type Reader, type Tx } from '../database.ts';

export type KitKindRow = { key: string; name: string; calibrated: boolean; carriedByAll: boolean };
export type KitItemRow = {
  id: string;
  officeId: string;
  kind: string;
  name: string;
  serial: string;
  calibratedUntil: string | null;
  endedOn: string | null;
  note: string;
};

const ITEM = `SELECT i.id::text AS id, i.office_id::text AS "officeId", i.kind, k.name, i.serial, i.calibrated_until::text AS "calibratedUntil", i.ended_on::text AS "endedOn", i.note FROM kit_item i JOIN kit_kind k ON k.key = i.kind`;

export const listKitKinds = (reader: Reader): Promise<KitKindRow[]> =>
  reader.rows<KitKindRow>('SELECT key, name, calibrated, carried_by_all AS "carriedByAll" FROM kit_kind ORDER BY name');
export const findKitKind = async (reader: Reader, key: string): Promise<KitKindRow | null> =>
  (
    await reader.rows<KitKindRow>('SELECT key, name, calibrated, carried_by_all AS "carriedByAll" FROM kit_kind WHERE key = $1', [key])
  )[0] ?? null;

/** Every piece, those in service first. */
export const listKitItems = (reader: Reader): Promise<KitItemRow[]> =>
  reader.rows<KitItemRow>(`${ITEM} ORDER BY i.ended_on IS NOT NULL, k.name, i.serial`);
export const findKitItem = async (reader: Reader, id: string): Promise<KitItemRow | null> =>
  (await reader.rows<KitItemRow>(`${ITEM} WHERE i.id = $1::uuid`, [id]))[0] ?? null;

/** Adds a piece. Constraint: kit_item_serial_key. */
export async function saveKitItem(
  tx: Tx,
  item: { id: string; officeId: string; kind: string; serial: string; calibratedUntil: string | null; note: string },
): Promise<void> {
  await tx.db.kitItem.create({ data: { ...item, calibratedUntil: item.calibratedUntil === null ? null : dayIn(item.calibratedUntil) } });
}

export type KitEdit = { calibratedUntil?: string | null; endedOn?: string | null; note?: string };

export async function updateKitItem(tx: Tx, id: string, edit: KitEdit): Promise<void> {
  const date = (day: string | null | undefined) => (day === undefined || day === null ? day : dayIn(day));
  await tx.db.kitItem.update({
    where: { id },
    data: { note: edit.note, calibratedUntil: date(edit.calibratedUntil), endedOn: date(edit.endedOn) },
  });
}

export type LapsingRow = {
  kind: 'license' | 'qualification' | 'kit' | 'policy';
  id: string;
  personId: string | null;
  who: string;
  what: string;
  on: string;
};

/** What lapses in the days [from, to] and has no follower that already covers the day after, soonest first. */
export const listLapsing = (reader: Reader, from: string, to: string): Promise<LapsingRow[]> =>
  reader.rows<LapsingRow>(
    `SELECT kind, id, "personId", who, what, "on"::text AS "on" FROM (
       SELECT 'license' AS kind, l.id::text AS id, p.id::text AS "personId", p.name AS who, replace(l.kind, '_', ' ') || ' license ' || l.number AS what, l.until_day AS "on"
         FROM license l JOIN person p ON p.id = l.person_id
         WHERE (p.ended_on IS NULL OR p.ended_on > l.until_day) AND NOT EXISTS (SELECT FROM license n WHERE n.person_id = l.person_id AND n.kind = l.kind AND n.from_day <= l.until_day + 1 AND n.until_day > l.until_day)
       UNION ALL
       SELECT 'qualification', q.id::text, p.id::text, p.name, k.name, q.until_day
         FROM person_qualification q JOIN person p ON p.id = q.person_id JOIN qualification_kind k ON k.key = q.kind
         WHERE (p.ended_on IS NULL OR p.ended_on > q.until_day)
           AND NOT EXISTS (SELECT FROM person_qualification n WHERE n.person_id = q.person_id AND n.kind = q.kind AND n.from_day <= q.until_day + 1 AND (n.until_day IS NULL OR n.until_day > q.until_day))
       UNION ALL
       SELECT 'kit', i.id::text, NULL, k.name, 'calibration of ' || i.serial, i.calibrated_until FROM kit_item i JOIN kit_kind k ON k.key = i.kind WHERE i.ended_on IS NULL
       UNION ALL
       SELECT 'policy', i.id::text, NULL, i.insurer, i.kind || ' liability policy ' || i.number, i.ends_on FROM insurance_policy i
         WHERE NOT EXISTS (SELECT FROM insurance_policy n WHERE n.kind = i.kind AND n.starts_on <= i.ends_on AND n.ends_on > i.ends_on)
     ) lapsing WHERE "on" BETWEEN $1::date AND $2::date ORDER BY lapsing."on", who, what`,
    [from, to],
  );
