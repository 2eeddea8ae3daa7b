// Pause, quiet hours and reminders of the firm's mail: one row.
import type { Reader, Tx } from '../database.ts';

export type MailSettings = {
  pausedAt: Date | null;
  pausedBy: string | null;
  pauseReason: string | null;
  quietFromMinute: number;
  quietUntilMinute: number;
  signAfterDays: number;
  payBeforeDays: number;
  payOverdueDays: number;
  dayBefore: boolean;
  version: number;
};

/** `pausedBy` is a name. */
export const findMailSettings = async (reader: Reader): Promise<MailSettings> =>
  (
    await reader.rows<MailSettings>(
      `SELECT s.paused_at AS "pausedAt", p.name AS "pausedBy", s.pause_reason AS "pauseReason", s.quiet_from_minute AS "quietFromMinute", s.quiet_until_minute AS "quietUntilMinute", s.sign_after_days AS "signAfterDays",
         s.pay_before_days AS "payBeforeDays", s.pay_overdue_days AS "payOverdueDays", s.day_before AS "dayBefore", s.version
       FROM mail_settings s LEFT JOIN person p ON p.id = s.paused_by`,
    )
  )[0]!;

export type MailSettingsEdit = Omit<MailSettings, 'pausedAt' | 'pausedBy' | 'pauseReason' | 'version'>;

/** Answers false when somebody changed them meanwhile. */
export const updateMailSettings = async (tx: Tx, version: number, edit: MailSettingsEdit): Promise<boolean> =>
  (await tx.db.mailSettings.updateMany({ where: { id: 1, version }, data: { ...edit, version: version + 1 } })).count === 1;

/** Pauses the outbox (`pause`), or lets it go on (null). */
export async function setMailPause(tx: Tx, pause: { at: Date; by: string; reason: string } | null): Promise<void> {
  await tx.db.mailSettings.update({
    where: { id: 1 },
    data: { pausedAt: pause?.at ?? null, pausedBy: pause?.by ?? null, pauseReason: pause?.reason ?? null },
  });
}
