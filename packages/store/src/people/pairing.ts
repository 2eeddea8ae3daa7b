// Who must or must not go with whom, and who must not go where.
import type { PairingKind } from '@backsight/domain/people/pairing';
import { dayIn, execute, type Reader, type Tx } from '../database.ts';
import { anywhere, PLACE } from '../find.ts';

export type PairingRow = {
  id: string;
  kind: PairingKind;
  aId: string;
  aName: string;
  bId: string;
  bName: string;
  reason: string;
  endedOn: string | null;
};
const PAIRING = `SELECT r.id::text AS id, r.kind, r.a_id::text AS "aId", a.name AS "aName", r.b_id::text AS "bId", b.name AS "bName", r.reason, r.ended_on::text AS "endedOn"
  FROM pairing_rule r JOIN person a ON a.id = r.a_id JOIN person b ON b.id = r.b_id`;

/** Every pairing rule: those in force first, then those that ended. */
export const listPairing = (reader: Reader): Promise<PairingRow[]> =>
  reader.rows<PairingRow>(`${PAIRING} ORDER BY r.ended_on IS NOT NULL, a.name, b.name`);
export const findPairing = async (reader: Reader, id: string): Promise<PairingRow | null> =>
  (await reader.rows<PairingRow>(`${PAIRING} WHERE r.id = $1::uuid`, [id]))[0] ?? null;

/** Puts a rule in force; one that had ended for the same two comes back under its old id, which is returned. */
export async function savePairing(tx: Tx, rule: { id: string; kind: string; aId: string; bId: string; reason: string }): Promise<string> {
  const [row] = await tx.rows<{ id: string }>(
    `INSERT INTO pairing_rule (id, kind, a_id, b_id, reason) VALUES ($1::uuid, $2, $3::uuid, $4::uuid, $5)
     ON CONFLICT (kind, a_id, b_id) DO UPDATE SET reason = excluded.reason, ended_on = NULL RETURNING id::text AS id`,
    [rule.id, rule.kind, rule.aId, rule.bId, rule.reason],
  );
  return row!.id;
}

export async function setPairingEnd(tx: Tx, id: string, endedOn: string): Promise<void> {
  await tx.db.pairingRule.update({ where: { id }, data: { endedOn: dayIn(endedOn) } });
}

export type BarKind = 'property' | 'party';
export type BarRow = { id: string; personId: string; kind: BarKind; aboutId: string; name: string; reason: string | null };

const BARS = `SELECT b.id::text AS id, b.person_id::text AS "personId", b.kind, b.about_id::text AS "aboutId", b.name, b.reason FROM (
  SELECT b.id, b.person_id, 'property' AS kind, b.property_id AS about_id, p.address || ', ' || p.town AS name, b.reason FROM person_bar b JOIN property p ON p.id = b.property_id
  UNION ALL SELECT b.id, b.person_id, 'party', b.party_id, p.name, b.reason FROM person_party_bar b JOIN party p ON p.id = b.party_id) b`;

/** Properties that a person must not go to, and people on jobs to whom he must not be sent. */
export const barsOf = (reader: Reader, personId: string): Promise<BarRow[]> =>
  reader.rows<BarRow>(`${BARS} WHERE b.person_id = $1::uuid ORDER BY b.kind DESC, b.name`, [personId]);

export const findBar = async (reader: Reader, id: string): Promise<BarRow | null> =>
  (await reader.rows<BarRow>(`${BARS} WHERE b.id = $1::uuid`, [id]))[0] ?? null;

/** Properties whose address holds every word typed, for the choice of one. */
export const searchProperties = (reader: Reader, words: readonly string[]): Promise<{ id: string; name: string }[]> =>
  reader.rows<{ id: string; name: string }>(
    `SELECT id::text AS id, address || ', ' || town AS name FROM property WHERE ${PLACE('property')} LIKE $1 AND ${PLACE('property')} LIKE ALL ($2::text[]) ORDER BY address LIMIT 12`,
    [anywhere(words.toSorted((a, b) => b.length - a.length)[0] ?? ''), words.map(anywhere)],
  );

export const findProperty = async (reader: Reader, id: string): Promise<{ id: string } | null> =>
  (await reader.rows<{ id: string }>('SELECT id::text AS id FROM property WHERE id = $1::uuid', [id]))[0] ?? null;

export type NewBar = { id: string; personId: string; kind: BarKind; aboutId: string; reason: string | null; recordedAt: Date };

/** Keeps a person away. Constraints: person_bar_person_id_property_id_key, person_party_bar_person_id_party_id_key. */
export async function saveBar(tx: Tx, { kind, aboutId, ...bar }: NewBar): Promise<void> {
  if (kind === 'property') await tx.db.personBar.create({ data: { ...bar, propertyId: aboutId } });
  else await tx.db.personPartyBar.create({ data: { ...bar, partyId: aboutId } });
}

export const deleteBar = (tx: Tx, { id, kind }: Pick<BarRow, 'id' | 'kind'>): Promise<void> =>
  execute(tx, `DELETE FROM ${kind === 'property' ? 'person_bar' : 'person_party_bar'} WHERE id = $1::uuid`, id);
