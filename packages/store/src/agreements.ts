// Agreement texts, agreements, their signers, signatures, and overrides of the gate.
import type { Capacity } from '@backsight/domain/agreements/signers';
import { dayIn, execute, type Reader, type Tx } from './database.ts';

export type TextRow = {
  id: string;
  number: number;
  title: string;
  body: string;
  consentText: string;
  inForceFrom: Date | null;
  attorney: string | null;
  attorneyOn: string | null;
  recordedAt: Date;
};

const TEXT = `SELECT id::text AS id, number, title, body, consent_text AS "consentText", in_force_from AS "inForceFrom", attorney, attorney_on::text AS "attorneyOn", recorded_at AS "recordedAt" FROM agreement_text`;

export const listTexts = (reader: Reader): Promise<TextRow[]> => reader.rows<TextRow>(`${TEXT} ORDER BY number DESC`);
export const findText = async (reader: Reader, id: string): Promise<TextRow | null> =>
  (await reader.rows<TextRow>(`${TEXT} WHERE id = $1::uuid`, [id]))[0] ?? null;
/** The text in force at an instant: the one that came into force last. */
export const textInForce = async (reader: Reader, at: Date): Promise<TextRow | null> =>
  (
    await reader.rows<TextRow>(`${TEXT} WHERE in_force_from <= $1::timestamptz ORDER BY in_force_from DESC, number DESC LIMIT 1`, [
      at.toISOString(),
    ])
  )[0] ?? null;

export const saveApproval = async (tx: Tx, id: string, attorney: string, on: string): Promise<boolean> =>
  (await tx.db.agreementText.updateMany({ where: { id, attorney: null }, data: { attorney, attorneyOn: dayIn(on) } })).count === 1;

export type AgreementRow = {
  id: string;
  jobId: string;
  jobNumber: number;
  textId: string;
  title: string;
  consentText: string;
  body: string;
  sha256: string;
  issuedAt: Date;
  reviewed: boolean;
  supersedesId: string | null;
};

const AGREEMENT = `SELECT a.id::text AS id, a.job_id::text AS "jobId", j.number AS "jobNumber", a.text_id::text AS "textId", t.title, t.consent_text AS "consentText", a.body, a.sha256,
  a.issued_at AS "issuedAt", t.attorney IS NOT NULL AS reviewed, a.supersedes_id::text AS "supersedesId"
  FROM agreement a JOIN agreement_text t ON t.id = a.text_id JOIN job j ON j.id = a.job_id`;

/** The agreement of a job that no other took the place of. */
export const newestAgreement = async (reader: Reader, jobId: string): Promise<AgreementRow | null> =>
  (
    await reader.rows<AgreementRow>(
      `${AGREEMENT} WHERE a.job_id = $1::uuid AND NOT EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = a.id) ORDER BY a.issued_at DESC LIMIT 1`,
      [jobId],
    )
  )[0] ?? null;

export const findAgreement = async (reader: Reader, id: string): Promise<AgreementRow | null> =>
  (await reader.rows<AgreementRow>(`${AGREEMENT} WHERE a.id = $1::uuid`, [id]))[0] ?? null;

export const countAgreements = async (reader: Reader, jobId: string): Promise<number> =>
  (await reader.rows<{ n: number }>('SELECT count(*)::int AS n FROM agreement WHERE job_id = $1::uuid', [jobId]))[0]?.n ?? 0;

/** Keeps two issues for one job, and an issue and a signing, apart. */
export const lockAgreementOfJob = (tx: Tx, jobId: string): Promise<number> =>
  execute(tx, `SELECT pg_advisory_xact_lock(hashtextextended('agreement of ' || $1, 0))`, jobId);

export type NewAgreement = {
  id: string;
  jobId: string;
  textId: string;
  body: string;
  sha256: string;
  supersedesId: string | null;
  at: Date;
};

export async function saveAgreement(tx: Tx, a: NewAgreement): Promise<void> {
  const { at, ...row } = a;
  await tx.db.agreement.create({ data: { ...row, issuedAt: at, recordedAt: at } });
}

export type NewSigner = {
  id: string;
  agreementId: string;
  partyId: string;
  capacity: Capacity;
  authority: string;
  tokenHash: string;
  tokenEndsAt: Date;
  sentAt: Date | null;
  sharedAddress: boolean;
};

export const saveSigner = async (tx: Tx, s: NewSigner): Promise<void> => void (await tx.db.signer.create({ data: s }));

export type SignerRow = {
  id: string;
  agreementId: string;
  jobId: string;
  partyId: string;
  name: string;
  email: string | null;
  capacity: Capacity;
  authority: string;
  tokenEndsAt: Date;
  sentAt: Date | null;
  sharedAddress: boolean;
  signature: {
    name: string | null;
    sha256: string;
    consentSha256: string;
    method: 'link' | 'on_site_device' | 'paper';
    device: string;
    happenedAt: string;
  } | null;
};

const SIGNER = `SELECT s.id::text AS id, s.agreement_id::text AS "agreementId", a.job_id::text AS "jobId", s.party_id::text AS "partyId", p.name, p.email, s.capacity, s.authority, s.token_ends_at AS "tokenEndsAt", s.sent_at AS "sentAt",
  s.shared_address AS "sharedAddress", CASE WHEN g.id IS NULL THEN NULL ELSE jsonb_build_object('name', k.body, 'sha256', g.sha256, 'consentSha256', g.consent_sha256, 'method', g.method, 'device', g.device,
    'happenedAt', to_char(g.happened_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')) END AS signature
  FROM signer s JOIN agreement a ON a.id = s.agreement_id JOIN party p ON p.id = s.party_id LEFT JOIN signature g ON g.signer_id = s.id LEFT JOIN kept_text k ON k.id = g.name_text_id`;

export const signersOf = (reader: Reader, agreementId: string): Promise<SignerRow[]> =>
  reader.rows<SignerRow>(`${SIGNER} WHERE s.agreement_id = $1::uuid ORDER BY p.name COLLATE "en-x-icu", s.id`, [agreementId]);
export const findSigner = async (reader: Reader, id: string): Promise<SignerRow | null> =>
  (await reader.rows<SignerRow>(`${SIGNER} WHERE s.id = $1::uuid`, [id]))[0] ?? null;
/** By the digest of a link's token: the same one look-up whether it exists or not. */
export const signerOfToken = async (reader: Reader, tokenHash: string): Promise<SignerRow | null> =>
  (await reader.rows<SignerRow>(`${SIGNER} WHERE s.token_hash = $1`, [tokenHash]))[0] ?? null;
export const lockSigner = (tx: Tx, id: string): Promise<number> => execute(tx, 'SELECT 1 FROM signer WHERE id = $1::uuid FOR UPDATE', id);

export type SignerEdit = Partial<{
  capacity: Capacity;
  authority: string;
  tokenHash: string;
  tokenEndsAt: Date;
  sentAt: Date;
  sharedAddress: boolean;
}>;
export const updateSigner = async (tx: Tx, id: string, edit: SignerEdit): Promise<void> =>
  void (await tx.db.signer.update({ where: { id }, data: edit }));

export type NewSignature = {
  id: string;
  signerId: string;
  nameTextId: string;
  sha256: string;
  consentSha256: string;
  method: 'link' | 'on_site_device' | 'paper';
  device: string;
  ipHash: string;
  happenedAt: Date;
  recordedAt: Date;
};
export const saveSignature = async (tx: Tx, s: NewSignature): Promise<void> => void (await tx.db.signature.create({ data: s }));

export type NewOverride = { id: string; visitId: string; missing: string[]; reason: string; actorId: string; at: Date };
export async function saveOverride(tx: Tx, o: NewOverride): Promise<void> {
  const { at, ...row } = o;
  await tx.db.gateOverride.create({ data: { ...row, happenedAt: at, recordedAt: at } });
}

export type OverrideRow = { id: string; missing: string[]; reason: string; by: string; happenedAt: Date };
export const overridesOf = (reader: Reader, visitId: string): Promise<OverrideRow[]> =>
  reader.rows<OverrideRow>(
    `SELECT o.id::text AS id, o.missing, o.reason, p.name AS by, o.happened_at AS "happenedAt" FROM gate_override o JOIN person p ON p.id = o.actor_id WHERE o.visit_id = $1::uuid ORDER BY o.id`,
    [visitId],
  );
