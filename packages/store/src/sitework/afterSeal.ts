// What happens to a sealed record: supplements that stand beside it, and to whom an owner gave it.
import type { Reader, Tx } from '../database.ts';

export type NewSupplement = { id: string; recordId: string; textId: string; writtenBy: string; happenedAt: Date; recordedAt: Date };

/** Rule: supplement_of_open_record. */
export async function addSupplement(tx: Tx, supplement: NewSupplement): Promise<void> {
  await tx.db.recordSupplement.create({ data: supplement });
}

export type SupplementRow = { id: string; text: string | null; by: string; happenedAt: Date; recordedAt: Date };

export const supplementsOf = (reader: Reader, recordId: string): Promise<SupplementRow[]> =>
  reader.rows<SupplementRow>(
    `SELECT s.id::text AS id, t.body AS text, p.name AS by, s.happened_at AS "happenedAt", s.recorded_at AS "recordedAt" FROM record_supplement s JOIN kept_text t ON t.id = s.text_id JOIN person p ON p.id = s.written_by
     WHERE s.record_id = $1::uuid ORDER BY s.recorded_at, s.id`,
    [recordId],
  );

export type NewGivenOut = {
  id: string;
  recordId: string;
  toKind: string;
  textId: string;
  sealSha256: string;
  givenBy: string;
  happenedAt: Date;
  recordedAt: Date;
};

/** Rule: supplement_of_open_record. */
export async function addGivenOut(tx: Tx, given: NewGivenOut): Promise<void> {
  await tx.db.recordGivenOut.create({ data: given });
}

export type GivenOutRow = { id: string; toKind: string; text: string | null; by: string; happenedAt: Date };

export const givenOutOf = (reader: Reader, recordId: string): Promise<GivenOutRow[]> =>
  reader.rows<GivenOutRow>(
    `SELECT g.id::text AS id, g.to_kind AS "toKind", t.body AS text, p.name AS by, g.happened_at AS "happenedAt" FROM record_given_out g JOIN kept_text t ON t.id = g.text_id JOIN person p ON p.id = g.given_by
     WHERE g.record_id = $1::uuid ORDER BY g.happened_at, g.id`,
    [recordId],
  );
