// The firm's advice in danger, as owners approved it.
import type { ApprovedAdvice } from '@backsight/domain/callbacks/advice';
import type { Danger } from '@backsight/domain/callbacks/intakeWords';
import type { Reader, Tx } from '../database.ts';

/** Every approved wording, newest first. Instants are ISO. */
export async function approvedAdvice(reader: Reader): Promise<ApprovedAdvice[]> {
  const rows = await reader.rows<{ danger: Danger; words: string; by: string; at: Date }>(
    `SELECT a.danger, a.body AS words, p.name AS by, a.recorded_at AS at FROM safety_advice a JOIN person p ON p.id = a.approved_by ORDER BY a.recorded_at DESC, a.id DESC`,
  );
  return rows.map(({ danger, words, by, at }) => ({ danger, words, approvedBy: by, approvedAt: at.toISOString() }));
}

/** Constraint: safety_advice_known. */
export async function saveAdvice(
  tx: Tx,
  advice: { id: string; danger: Danger; body: string; approvedBy: string; recordedAt: Date },
): Promise<void> {
  await tx.db.safetyAdvice.create({ data: advice });
}
