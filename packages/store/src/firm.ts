// The firm itself and the state of its database.
import type { Reader } from './database.ts';

export type FirmRow = {
  name: string;
  zone: string;
  demo: boolean;
  phone: string;
  email: string;
  address: string;
  holdMinutes: number;
  graceDays: number;
  everySigner: boolean;
  reportDueDays: number;
  paperSize: 'letter' | 'a4';
  onCallPhone: string;
};

/** The firm, or null before its set-up. */
export const findFirm = async (reader: Reader): Promise<FirmRow | null> =>
  (
    await reader.rows<FirmRow>(
      `SELECT name, zone, demo, phone, email, address, hold_minutes AS "holdMinutes", grace_days AS "graceDays", every_signer AS "everySigner", report_due_days AS "reportDueDays", paper_size AS "paperSize", on_call_phone AS "onCallPhone" FROM firm`,
    )
  )[0] ?? null;

/** Name of the newest migration that was applied. */
export const newestMigration = async (reader: Reader): Promise<string | null> =>
  (
    await reader.rows<{ name: string }>(
      'SELECT migration_name AS name FROM "_prisma_migrations" WHERE finished_at IS NOT NULL ORDER BY migration_name DESC LIMIT 1',
    )
  )[0]?.name ?? null;

/** How much waits for the service, by what it is. */
export async function waitingNow(reader: Reader): Promise<{ mails: number; mails_given_up: number; audit_rows: number }> {
  const [row] = await reader.rows<{ mails: number; mails_given_up: number; audit_rows: number }>(
    `SELECT (SELECT count(*) FROM outgoing_mail WHERE state = 'waiting')::int AS mails, (SELECT count(*) FROM outgoing_mail WHERE state = 'given_up')::int AS mails_given_up,
       (SELECT count(*) FROM audit_row a WHERE NOT EXISTS (SELECT FROM audit_seal s WHERE s.audit_id = a.id)
          AND a.recorded_at >= coalesce((SELECT r.recorded_at FROM audit_seal s JOIN audit_row r ON r.id = s.audit_id ORDER BY s.seal_no DESC LIMIT 1), '-infinity'))::int AS audit_rows`,
  );
  return row!;
}
