// How one gets into a house. The codes leave this file only for the people of a visit, around its time.
import { execute, type Reader, type Tx } from '../database.ts';

export type AccessRow = {
  opener: string;
  phone: string;
  opensAt: Date | null;
  pets: string;
  hasKeyBox: boolean;
  hasAlarm: boolean;
  changedAt: Date;
};

/** Without the codes. */
export const findAccess = async (reader: Reader, jobId: string): Promise<AccessRow | null> =>
  (
    await reader.rows<AccessRow>(
      `SELECT opener, phone, opens_at AS "opensAt", pets, key_box IS NOT NULL AS "hasKeyBox", alarm IS NOT NULL AS "hasAlarm", changed_at AS "changedAt" FROM job_access WHERE job_id = $1::uuid`,
      [jobId],
    )
  )[0] ?? null;

export type Codes = { keyBox: string | null; alarm: string | null };

export const findCodes = async (reader: Reader, jobId: string): Promise<Codes> =>
  (await reader.rows<Codes>('SELECT key_box AS "keyBox", alarm FROM job_access WHERE job_id = $1::uuid', [jobId]))[0] ?? {
    keyBox: null,
    alarm: null,
  };

export type AccessEdit = {
  opener: string;
  phone: string;
  opensAt: Date | null;
  pets: string;
  keyBox?: string | null;
  alarm?: string | null;
  changedAt: Date;
  changedBy: string;
};

/** Codes that are not given stay as they are. */
export async function saveAccess(tx: Tx, jobId: string, edit: AccessEdit): Promise<void> {
  await tx.db.jobAccess.upsert({ where: { jobId }, create: { jobId, ...edit }, update: edit });
}

/** Somebody was to be there from a time that no longer counts. */
export async function forgetOpening(tx: Tx, jobId: string): Promise<void> {
  await tx.db.jobAccess.updateMany({ where: { jobId }, data: { opensAt: null } });
}

const OVER = `(key_box IS NOT NULL OR alarm IS NOT NULL) AND NOT EXISTS (SELECT FROM visit v WHERE v.job_id = a.job_id AND v.state IN ('held', 'booked', 'on_site') AND v.ends_at > $1::timestamptz - interval '12 hours')`;

/** Jobs that still have codes and no visit ahead or under way. */
export const jobsWithOldCodes = async (reader: Reader, now: Date): Promise<string[]> =>
  (await reader.rows<{ id: string }>(`SELECT a.job_id::text AS id FROM job_access a WHERE ${OVER} LIMIT 200`, [now.toISOString()])).map(
    ({ id }) => id,
  );

export const eraseCodes = (tx: Tx, jobId: string): Promise<void> =>
  execute(tx, 'UPDATE job_access SET key_box = NULL, alarm = NULL WHERE job_id = $1::uuid', jobId);
