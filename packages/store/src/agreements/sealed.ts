// Sealed papers: what left the firm finished, kept byte for byte.
import type { Fingerprint } from '@backsight/domain/agreements/papers';
import type { Capacity } from '@backsight/domain/agreements/signers';
import type { Reader, Tx } from '../database.ts';

export type ProofRow = {
  signer: string;
  /** null once the words were erased. */
  signedAs: string | null;
  capacity: Capacity;
  authority: string;
  authorityFile: string | null;
  method: 'link' | 'on_site_device' | 'paper';
  device: string;
  ipHash: string;
  linkHash: string;
  /** Whose address it also was to which the link went; empty: the client's own. */
  sharedWith: string;
  sha256: string;
  consentSha256: string;
  formatWord: string;
  /** Drawing, interpreter: null where there was none, or once the words were erased. */
  strokes: string | null;
  interpreter: string | null;
  photo: string | null;
  keptWhere: string;
  happenedAt: Date;
  recordedAt: Date;
};

/** The signatures under an agreement with what proves them, in the order in which they came in. */
export const proofsOf = (reader: Reader, agreementId: string): Promise<ProofRow[]> =>
  reader.rows<ProofRow>(
    `SELECT p.name AS signer, k.body AS "signedAs", s.capacity, s.authority, s.authority_sha256 AS "authorityFile", g.method, g.device, g.ip_hash AS "ipHash", g.link_hash AS "linkHash", s.shared_with AS "sharedWith", g.sha256, g.consent_sha256 AS "consentSha256",
       g.format_word AS "formatWord", d.body AS strokes, i.body AS interpreter, g.photo_sha256 AS photo, g.kept_where AS "keptWhere", g.happened_at AS "happenedAt", g.recorded_at AS "recordedAt"
     FROM signature g JOIN signer s ON s.id = g.signer_id JOIN party p ON p.id = s.party_id JOIN kept_text k ON k.id = g.name_text_id
       LEFT JOIN kept_text d ON d.id = g.strokes_text_id LEFT JOIN kept_text i ON i.id = g.interpreter_text_id
     WHERE s.agreement_id = $1::uuid ORDER BY g.recorded_at, g.id`,
    [agreementId],
  );

export type NewSealedPaper = {
  id: string;
  kind: 'agreement' | 'report';
  agreementId?: string;
  reportId?: string;
  signatures?: number;
  name: string;
  sha256: string;
  content: Uint8Array<ArrayBuffer>;
  recordedAt: Date;
};

/** Rules: sealed_paper_fits_fingerprint, sealed_paper_agreement_id_signatures_key. */
export const saveSealedPaper = (tx: Tx, paper: NewSealedPaper): Promise<void> => tx.db.sealedPaper.create({ data: paper });

export type SealedPaperRow = { name: string; sha256: string; content: Uint8Array; recordedAt: Date };

/** The paper of an agreement with the most signatures, of a report its only one; null when none was sealed. */
export const findSealedPaper = async (reader: Reader, of: { agreementId: string } | { reportId: string }): Promise<SealedPaperRow | null> =>
  (
    await reader.rows<SealedPaperRow>(
      `SELECT name, sha256, content, recorded_at AS "recordedAt" FROM sealed_paper WHERE ${'agreementId' in of ? 'agreement_id' : 'report_id'} = $1::uuid ORDER BY signatures DESC LIMIT 1`,
      ['agreementId' in of ? of.agreementId : of.reportId],
    )
  )[0] ?? null;

/** Every sealed paper of a job, oldest first. */
export const sealedPapersOfJob = (
  reader: Reader,
  jobId: string,
): Promise<(SealedPaperRow & { agreementId: string | null; reportId: string | null })[]> =>
  reader.rows(
    `SELECT p.name, p.sha256, p.content, p.recorded_at AS "recordedAt", p.agreement_id::text AS "agreementId", p.report_id::text AS "reportId" FROM sealed_paper p LEFT JOIN agreement a ON a.id = p.agreement_id LEFT JOIN report r ON r.id = p.report_id
     WHERE $1::uuid IN (a.job_id, r.job_id) AND a.remedy_id IS NULL ORDER BY p.recorded_at, p.id`,
    [jobId],
  );

export type KnownFingerprint = { kind: Fingerprint; at: Date; superseded: boolean };

/** What a SHA-256 (64 hex digits, lower case) is the fingerprint of, without saying whose. */
export const findFingerprint = async (reader: Reader, sha256: string): Promise<KnownFingerprint | null> =>
  (
    await reader.rows<KnownFingerprint>(
      `SELECT CASE p.kind WHEN 'agreement' THEN 'signed_agreement' ELSE 'report' END AS kind, p.recorded_at AS at,
         EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = p.agreement_id) OR EXISTS (SELECT FROM report r JOIN report n ON n.job_id = r.job_id AND n.version > r.version WHERE r.id = p.report_id) AS superseded
         FROM sealed_paper p WHERE p.sha256 = $1
       UNION ALL SELECT 'agreement_words', a.issued_at, EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = a.id) FROM agreement a WHERE a.sha256 = $1
       UNION ALL SELECT 'report_file', r.recorded_at, EXISTS (SELECT FROM report n WHERE n.job_id = r.job_id AND n.version > r.version) FROM report r WHERE r.file_sha256 = $1
       UNION ALL SELECT 'site_record', s.sealed_at, false FROM site_record s WHERE s.seal_sha256 = $1
       UNION ALL SELECT 'job_file', f.recorded_at, false FROM job_file f WHERE f.file_sha256 = $1
       ORDER BY 2 DESC LIMIT 1`,
      [sha256],
    )
  )[0] ?? null;
