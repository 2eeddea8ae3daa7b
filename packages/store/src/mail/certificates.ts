// The insurer's certificates: the newest of each policy counts.
import type { Reader, Tx } from '../database.ts';

export type CertificateRow = {
  id: string;
  policyId: string;
  policy: string;
  endsOn: string;
  sha256: string;
  name: string;
  mediaType: string;
  recordedAt: Date;
};

/** The newest certificate of each policy that is in force on the day; every policy's when it is null. */
export const listCertificates = (reader: Reader, day: string | null): Promise<CertificateRow[]> =>
  reader.rows<CertificateRow>(
    `SELECT DISTINCT ON (p.id) c.id::text AS id, p.id::text AS "policyId", p.insurer || ', ' || p.number AS policy, p.ends_on::text AS "endsOn", c.file_sha256 AS sha256, f.name, f.media_type AS "mediaType", c.recorded_at AS "recordedAt"
     FROM insurance_certificate c JOIN insurance_policy p ON p.id = c.policy_id JOIN stored_file f ON f.sha256 = c.file_sha256
     WHERE $1::date IS NULL OR $1::date BETWEEN p.starts_on AND p.ends_on ORDER BY p.id, c.recorded_at DESC`,
    [day],
  );

export async function saveCertificate(
  tx: Tx,
  row: { id: string; policyId: string; fileSha256: string; recordedBy: string; recordedAt: Date },
): Promise<void> {
  await tx.db.insuranceCertificate.create({ data: row });
}
