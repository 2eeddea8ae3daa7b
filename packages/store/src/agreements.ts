// Agreements, their signers, signatures, and overrides of the gate.
import type { Capacity } from '@backsight/domain/agreements/signers';
import { execute, type Reader, type Tx } from './database.ts';

const ISO = `'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'`;

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
  /** The remedy whose claim it settles; null for agreements about inspecting. */
  remedyId: string | null;
};

const AGREEMENT = `SELECT a.id::text AS id, a.job_id::text AS "jobId", j.number AS "jobNumber", a.text_id::text AS "textId", t.title, t.consent_text AS "consentText", a.body, a.sha256,
  a.issued_at AS "issuedAt", t.attorney IS NOT NULL AS reviewed, a.supersedes_id::text AS "supersedesId", a.remedy_id::text AS "remedyId"
  FROM agreement a JOIN agreement_text t ON t.id = a.text_id JOIN job j ON j.id = a.job_id`;

/** The agreement about inspecting of a job that no other took the place of. */
export const newestAgreement = async (reader: Reader, jobId: string): Promise<AgreementRow | null> =>
  (
    await reader.rows<AgreementRow>(
      `${AGREEMENT} WHERE a.job_id = $1::uuid AND NOT EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = a.id) AND a.remedy_id IS NULL ORDER BY a.issued_at DESC LIMIT 1`,
      [jobId],
    )
  )[0] ?? null;

/** The settlement release of a remedy that no other took the place of. */
export const newestRelease = async (reader: Reader, remedyId: string): Promise<AgreementRow | null> =>
  (
    await reader.rows<AgreementRow>(
      `${AGREEMENT} WHERE a.remedy_id = $1::uuid AND NOT EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = a.id) ORDER BY a.issued_at DESC LIMIT 1`,
      [remedyId],
    )
  )[0] ?? null;

export const findAgreement = async (reader: Reader, id: string): Promise<AgreementRow | null> =>
  (await reader.rows<AgreementRow>(`${AGREEMENT} WHERE a.id = $1::uuid`, [id]))[0] ?? null;

/** The agreement of a job that a person signed last, other than the one given. */
export const lastSigned = async (
  reader: Reader,
  of: { jobId: string; partyId: string; before: string },
): Promise<{ body: string; signedAt: Date } | null> =>
  (
    await reader.rows<{ body: string; signedAt: Date }>(
      `SELECT a.body, g.happened_at AS "signedAt" FROM agreement a JOIN signer s ON s.agreement_id = a.id AND s.party_id = $2::uuid JOIN signature g ON g.signer_id = s.id
       WHERE a.job_id = $1::uuid AND a.id <> $3::uuid AND a.remedy_id IS NULL ORDER BY a.issued_at DESC, a.id DESC LIMIT 1`,
      [of.jobId, of.partyId, of.before],
    )
  )[0] ?? null;

export type EarlierAgreement = {
  id: string;
  body: string;
  sha256: string;
  issuedAt: Date;
  supersedesId: string | null;
  signed: { name: string; at: string; late: boolean }[];
};

/** All agreements of a job in the order of their issue, with who signed each; `late`: after a newer one took its place. */
export const agreementsOfJob = (reader: Reader, jobId: string): Promise<EarlierAgreement[]> =>
  reader.rows<EarlierAgreement>(
    `SELECT a.id::text AS id, a.body, a.sha256, a.issued_at AS "issuedAt", a.supersedes_id::text AS "supersedesId",
       coalesce((SELECT jsonb_agg(jsonb_build_object('name', p.name, 'at', to_char(g.happened_at AT TIME ZONE 'UTC', ${ISO}), 'late', EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = a.id AND n.recorded_at < g.recorded_at)) ORDER BY g.id)
         FROM signer s JOIN party p ON p.id = s.party_id JOIN signature g ON g.signer_id = s.id WHERE s.agreement_id = a.id), '[]'::jsonb) AS signed
     FROM agreement a WHERE a.job_id = $1::uuid AND a.remedy_id IS NULL ORDER BY a.issued_at, a.id`,
    [jobId],
  );

/** Keeps two issues for one job, and an issue and a signing, apart. */
export const lockAgreementOfJob = (tx: Tx, jobId: string): Promise<void> =>
  execute(tx, `SELECT pg_advisory_xact_lock(hashtextextended('agreement of ' || $1, 0))`, jobId);

export type NewAgreement = {
  id: string;
  jobId: string;
  textId: string;
  body: string;
  sha256: string;
  supersedesId: string | null;
  remedyId?: string;
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
  /** Whose address it also is. */
  sharedWith: string;
  authoritySha256: string | null;
};

export const saveSigner = (tx: Tx, s: NewSigner): Promise<void> => tx.db.signer.create({ data: s });

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
  sharedWith: string;
  authoritySha256: string | null;
  authorityFile: string | null;
  revokedAt: Date | null;
  /** The last that this client answered instead of signing. */
  answer: { kind: AnswerKind; reason: string | null; happenedAt: string } | null;
  signature: {
    name: string | null;
    sha256: string;
    consentSha256: string;
    method: 'link' | 'on_site_device' | 'paper';
    device: string;
    happenedAt: string;
    /** When the service got it: later than `happenedAt` when the device had no signal. */
    recordedAt: string;
    strokes: string | null;
    interpreter: string | null;
    formatWord: string;
    photoSha256: string | null;
    keptWhere: string;
  } | null;
};
export type AnswerKind = 'declined' | 'wants_paper';

const SIGNATURE = `jsonb_build_object('name', k.body, 'sha256', g.sha256, 'consentSha256', g.consent_sha256, 'method', g.method, 'device', g.device, 'happenedAt', to_char(g.happened_at AT TIME ZONE 'UTC', ${ISO}),
  'recordedAt', to_char(g.recorded_at AT TIME ZONE 'UTC', ${ISO}), 'strokes', (SELECT body FROM kept_text WHERE id = g.strokes_text_id), 'interpreter', (SELECT body FROM kept_text WHERE id = g.interpreter_text_id),
  'formatWord', g.format_word, 'photoSha256', g.photo_sha256, 'keptWhere', g.kept_where)`;
const ANSWER = `(SELECT jsonb_build_object('kind', n.kind, 'reason', w.body, 'happenedAt', to_char(n.happened_at AT TIME ZONE 'UTC', ${ISO})) FROM signer_answer n JOIN kept_text w ON w.id = n.reason_text_id
  WHERE n.signer_id = s.id ORDER BY n.recorded_at DESC, n.id DESC LIMIT 1)`;
const SIGNER = `SELECT s.id::text AS id, s.agreement_id::text AS "agreementId", a.job_id::text AS "jobId", s.party_id::text AS "partyId", p.name, p.email, s.capacity, s.authority, s.token_ends_at AS "tokenEndsAt", s.sent_at AS "sentAt",
  s.shared_address AS "sharedAddress", s.shared_with AS "sharedWith", s.authority_sha256 AS "authoritySha256", f.name AS "authorityFile", s.revoked_at AS "revokedAt", ${ANSWER} AS answer, CASE WHEN g.id IS NULL THEN NULL ELSE ${SIGNATURE} END AS signature
  FROM signer s JOIN agreement a ON a.id = s.agreement_id JOIN party p ON p.id = s.party_id LEFT JOIN signature g ON g.signer_id = s.id LEFT JOIN kept_text k ON k.id = g.name_text_id LEFT JOIN stored_file f ON f.sha256 = s.authority_sha256`;

export const signersOf = (reader: Reader, agreementId: string): Promise<SignerRow[]> =>
  reader.rows<SignerRow>(`${SIGNER} WHERE s.agreement_id = $1::uuid ORDER BY p.name COLLATE "en-x-icu", s.id`, [agreementId]);
export const findSigner = async (reader: Reader, id: string): Promise<SignerRow | null> =>
  (await reader.rows<SignerRow>(`${SIGNER} WHERE s.id = $1::uuid`, [id]))[0] ?? null;
/** By the digest of a link's token: the same one look-up whether it exists or not. */
export const signerOfToken = async (reader: Reader, tokenHash: string): Promise<SignerRow | null> =>
  (await reader.rows<SignerRow>(`${SIGNER} WHERE s.token_hash = $1`, [tokenHash]))[0] ?? null;
export const lockSigner = (tx: Tx, id: string): Promise<void> => execute(tx, 'SELECT 1 FROM signer WHERE id = $1::uuid FOR UPDATE', id);

export type SignerEdit = Partial<{
  capacity: Capacity;
  authority: string;
  tokenHash: string;
  tokenEndsAt: Date;
  sentAt: Date;
  sharedAddress: boolean;
  sharedWith: string;
  authoritySha256: string;
  revokedAt: Date | null;
}>;
export const updateSigner = (tx: Tx, id: string, edit: SignerEdit): Promise<void> => tx.db.signer.update({ where: { id }, data: edit });

export type NewSignature = {
  id: string;
  signerId: string;
  nameTextId: string;
  sha256: string;
  consentSha256: string;
  method: 'link' | 'on_site_device' | 'paper';
  device: string;
  ipHash: string;
  consentText: string;
  formatWord: string;
  linkHash: string;
  keptWhere: string;
  strokesTextId: string | null;
  addressTextId: string | null;
  interpreterTextId: string | null;
  photoSha256: string | null;
  happenedAt: Date;
  recordedAt: Date;
};
/** Rules: signature_signer_id_key, signature_consent_fits. */
export const saveSignature = (tx: Tx, s: NewSignature): Promise<void> => tx.db.signature.create({ data: s });

export type NewAnswer = { id: string; signerId: string; kind: AnswerKind; reasonTextId: string; at: Date };
export async function saveAnswer(tx: Tx, { at, ...row }: NewAnswer): Promise<void> {
  await tx.db.signerAnswer.create({ data: { ...row, happenedAt: at, recordedAt: at } });
}

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
