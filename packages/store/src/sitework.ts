// Site records: what was handed out, what the steps are done for, what was seen, and the seal.
import type { Step } from '@backsight/domain/procedures/step';
import type { ItemKind } from '@backsight/domain/shared/facts';
import type { Measures } from '@backsight/domain/sitework/accessLimits';
import type { SiteAct } from '@backsight/domain/sitework/act';
import type { CorrectionReason, CouldNotReason, EntryEvidence, EntryMatch, StepOutcome } from '@backsight/domain/sitework/value';
import type { EndedAs } from '@backsight/domain/sitework/endedAs';
import type { Prisma } from './generated/client.ts';
import { execute, type Reader, type Tx } from './database.ts';

export type RecordRow = {
  id: string;
  visitId: string;
  state: 'open' | 'sealed';
  openedAt: Date;
  endedAs: EndedAs | null;
  sealedAt: Date | null;
  sealSha256: string | null;
  sealedBy: string | null;
  /** Who asked that it is sealed as soon as everything is there. */
  sealAskedBy: string | null;
};

const RECORD = `SELECT id::text AS id, visit_id::text AS "visitId", state, opened_at AS "openedAt", ended_as AS "endedAs", sealed_at AS "sealedAt", seal_sha256 AS "sealSha256",
  sealed_by::text AS "sealedBy", seal_asked_by::text AS "sealAskedBy" FROM site_record`;

export const findRecord = async (reader: Reader, id: string): Promise<RecordRow | null> =>
  (await reader.rows<RecordRow>(`${RECORD} WHERE id = $1::uuid`, [id]))[0] ?? null;

/** Changes with everything that is added, which is never taken away; and whether a person belongs to the visit, or was handed the record. */
export const standOf = async (reader: Reader, id: string, personId: string): Promise<{ mark: string; handed: boolean } | null> =>
  (
    await reader.rows<{ mark: string; handed: boolean }>(
      `SELECT concat_ws('.', r.state, r.ended_as, r.seal_asked_by, (SELECT count(*) FROM step_entry WHERE record_id = r.id), (SELECT count(*) FROM site_photo WHERE record_id = r.id),
         (SELECT count(*) FROM record_item WHERE record_id = r.id), (SELECT count(*) FROM site_package WHERE record_id = r.id)) AS mark,
         EXISTS (SELECT FROM assignment a WHERE a.visit_id = r.visit_id AND a.person_id = $2::uuid)
           OR EXISTS (SELECT FROM site_package k WHERE k.record_id = r.id AND k.body @> jsonb_build_object('pair', jsonb_build_array(jsonb_build_object('personId', $2::text)))) AS handed
       FROM site_record r WHERE r.id = $1::uuid`,
      [id, personId],
    )
  )[0] ?? null;

/** The record, locked until the transaction ends: nobody adds, ends or seals meanwhile. */
export const lockRecord = async (tx: Tx, id: string): Promise<RecordRow | null> =>
  (await tx.rows<RecordRow>(`${RECORD} WHERE id = $1::uuid FOR UPDATE`, [id]))[0] ?? null;

export async function createRecord(tx: Tx, r: { id: string; visitId: string; openedAt: Date; at: Date }): Promise<void> {
  await tx.db.siteRecord.create({ data: { id: r.id, visitId: r.visitId, state: 'open', openedAt: r.openedAt, recordedAt: r.at } });
}

export const endRecord = (tx: Tx, id: string, endedAs: EndedAs): Promise<void> =>
  execute(tx, 'UPDATE site_record SET ended_as = $2 WHERE id = $1::uuid', id, endedAs);

/** Kept from the first who asks. */
export const askForSeal = (tx: Tx, id: string, asked: { by: string; at: Date }): Promise<void> =>
  execute(
    tx,
    'UPDATE site_record SET seal_asked_by = $2::uuid, seal_asked_at = $3::timestamptz WHERE id = $1::uuid AND seal_asked_by IS NULL',
    id,
    asked.by,
    asked.at.toISOString(),
  );

export const closeWithSeal = (tx: Tx, id: string, seal: { sha256: string; by: string; at: Date }): Promise<void> =>
  execute(
    tx,
    `UPDATE site_record SET state = 'sealed', seal_sha256 = $2, sealed_by = $3::uuid, sealed_at = $4::timestamptz WHERE id = $1::uuid`,
    id,
    seal.sha256,
    seal.by,
    seal.at.toISOString(),
  );

export type ItemRow = { id: string; kind: ItemKind; label: string };

export const itemsOf = (reader: Reader, recordId: string): Promise<ItemRow[]> =>
  reader.rows<ItemRow>('SELECT id::text AS id, kind, label FROM record_item WHERE record_id = $1::uuid ORDER BY recorded_at, kind, label', [
    recordId,
  ]);

/** Constraint: record_item_record_id_kind_label_key. */
export async function addItems(tx: Tx, recordId: string, items: readonly ItemRow[], at: Date): Promise<void> {
  if (items.length > 0) await tx.db.recordItem.createMany({ data: items.map((item) => ({ ...item, recordId, recordedAt: at })) });
}

export type PackageRow = {
  id: string;
  number: number;
  sha256: string;
  body: Record<string, unknown>;
  issuedAt: Date;
  startDespiteGate: boolean;
};

export const packagesOf = (reader: Reader, recordId: string): Promise<PackageRow[]> =>
  reader.rows<PackageRow>(
    'SELECT id::text AS id, number, sha256, body, issued_at AS "issuedAt", start_despite_gate AS "startDespiteGate" FROM site_package WHERE record_id = $1::uuid ORDER BY number',
    [recordId],
  );

export type NewPackage = {
  id: string;
  recordId: string;
  number: number;
  body: unknown;
  sha256: string;
  startDespiteGate: boolean;
  at: Date;
};
export type NewPackageStep = {
  id: string;
  stepKey: string;
  revisionId: string;
  itemId: string | null;
  position: number;
  partnerCheck: boolean;
};

export async function savePackage(tx: Tx, p: NewPackage, steps: readonly NewPackageStep[]): Promise<void> {
  const { at, body, ...row } = p;
  await tx.db.sitePackage.create({ data: { ...row, body: body as Prisma.InputJsonObject, issuedAt: at, recordedAt: at } });
  await tx.db.packageStep.createMany({ data: steps.map((step) => ({ ...step, packageId: p.id })) });
}

export type IssuedStep = {
  packageId: string;
  stepKey: string;
  itemId: string | null;
  revisionId: string;
  revisionNumber: number;
  procedureTitle: string;
  system: string;
  position: number;
  partnerCheck: boolean;
  body: Step;
};

/** Every step that was handed out for a record, as its frozen revision words it, in the order of the work. */
export const issuedSteps = (reader: Reader, recordId: string): Promise<IssuedStep[]> =>
  reader.rows<IssuedStep>(
    `SELECT k.id::text AS "packageId", s.step_key AS "stepKey", s.item_id::text AS "itemId", s.revision_id::text AS "revisionId", r.number AS "revisionNumber", p.title AS "procedureTitle", p.system,
       s.position, s.partner_check AS "partnerCheck", b.body
     FROM site_package k JOIN package_step s ON s.package_id = k.id JOIN procedure_revision r ON r.id = s.revision_id JOIN procedure p ON p.id = r.procedure_id
       JOIN revision_step b ON b.revision_id = s.revision_id AND b.step_key = s.step_key
     WHERE k.record_id = $1::uuid ORDER BY s.position`,
    [recordId],
  );

/** The whole revisions that a record was opened under. */
export const frozenRevisions = (
  reader: Reader,
  ids: readonly string[],
): Promise<{ procedureKey: string; title: string; system: string; revisionId: string; number: number; steps: Step[] }[]> =>
  reader.rows(
    `SELECT p.key AS "procedureKey", p.title, p.system, r.id::text AS "revisionId", r.number, (SELECT jsonb_agg(s.body ORDER BY s.position) FROM revision_step s WHERE s.revision_id = r.id) AS steps
     FROM procedure_revision r JOIN procedure p ON p.id = r.procedure_id WHERE r.id = ANY($1::uuid[]) ORDER BY p.position`,
    [ids],
  );

/** JSON of an entry's `value` column. */
export type StoredValue = {
  evidence: EntryEvidence | null;
  correction?: CorrectionReason;
  /** Photos that were taken for it; they may come later. */
  photos?: string[];
  /** Spoken notes that were recorded for it; they may come later. */
  spoken?: string[];
  measures?: Measures;
  /** What the pair did besides the steps; its words are the entry's note, as JSON. */
  act?: SiteAct;
  /** Id of the act that closed the step: the entry was filled in. */
  closedBy?: string;
};
export type EntryRow = {
  id: string;
  packageId: string;
  stepKey: string;
  itemId: string | null;
  outcome: StepOutcome;
  value: StoredValue;
  match: EntryMatch;
  note: string | null;
  noteDigest: string | null;
  observedBy: string;
  writtenBy: string;
  observedAt: Date;
  observedApprox: boolean;
  deviceSeq: number;
  /** The phone, its clock at writing, and what is added to that to set it right; null for what the service wrote itself. */
  deviceId?: string | null;
  writtenAt?: Date | null;
  clockOffsetMs?: number | null;
  supersedesId: string | null;
  reason: CouldNotReason | null;
  recordedAt: Date;
};

/** All entries of a record in the order in which they came in; those of one batch by the device's counter. */
export const entriesOf = (reader: Reader, recordId: string): Promise<EntryRow[]> =>
  reader.rows<EntryRow>(
    `SELECT e.id::text AS id, e.package_id::text AS "packageId", e.step_key AS "stepKey", e.item_id::text AS "itemId", e.outcome, e.value, e.match, t.body AS note, t.digest AS "noteDigest",
       e.observed_by::text AS "observedBy", e.written_by::text AS "writtenBy", e.observed_at AS "observedAt", e.observed_approx AS "observedApprox", e.device_seq AS "deviceSeq",
       e.device_id::text AS "deviceId", e.written_at AS "writtenAt", e.clock_offset_ms::float8 AS "clockOffsetMs", e.supersedes_id::text AS "supersedesId", e.reason, e.recorded_at AS "recordedAt"
     FROM step_entry e LEFT JOIN kept_text t ON t.id = e.text_id WHERE e.record_id = $1::uuid ORDER BY e.recorded_at, e.device_seq, e.id`,
    [recordId],
  );

export type NewEntry = Omit<EntryRow, 'note' | 'noteDigest' | 'recordedAt'> & { recordId: string; textId: string | null; at: Date };

/** Adds an entry. Constraints: step_entry_pkey, record_sealed. */
export async function addEntry(tx: Tx, e: NewEntry): Promise<void> {
  const { at, value, clockOffsetMs, ...row } = e;
  const offset = clockOffsetMs === null || clockOffsetMs === undefined ? null : BigInt(clockOffsetMs);
  await tx.db.stepEntry.create({
    data: { ...row, clockOffsetMs: offset, value: value as unknown as Prisma.InputJsonObject, happenedAt: at, recordedAt: at },
  });
}

/** Which of these entry ids are already stored, and for which record. */
export const knownEntries = (reader: Reader, ids: readonly string[]): Promise<{ id: string; recordId: string; match: EntryMatch }[]> =>
  reader.rows('SELECT id::text AS id, record_id::text AS "recordId", match FROM step_entry WHERE id = ANY($1::uuid[])', [ids]);
