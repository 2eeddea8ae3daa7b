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
