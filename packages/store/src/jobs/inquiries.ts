// Prices that were asked and not booked.
import type { FeeLine } from '@backsight/domain/fees/schedule';
import type { Prisma } from '../generated/client.ts';
import { dayIn, type Reader, type Tx } from '../database.ts';

export type Outcome = 'booked' | 'price' | 'date' | 'other' | 'unknown';
export type InquiryRow = {
  id: string;
  caller: string;
  phone: string;
  email: string;
  address: string;
  draft: Record<string, unknown>;
  scheduleNumber: number;
  lines: FeeLine[];
  totalCents: number;
  followUpOn: string | null;
  note: string;
  outcome: Outcome | null;
  outcomeNote: string;
  jobId: string | null;
  closedAt: Date | null;
  version: number;
  recordedAt: Date;
  by: string;
};

const SELECT = `SELECT i.id, i.caller, i.phone, i.email, i.address, i.draft, s.number AS "scheduleNumber", i.lines, i.total_cents AS "totalCents", i.follow_up_on::text AS "followUpOn", i.note,
  i.outcome, i.outcome_note AS "outcomeNote", i.job_id AS "jobId", i.closed_at AS "closedAt", i.version, i.recorded_at AS "recordedAt", p.name AS by
  FROM inquiry i JOIN fee_schedule s ON s.id = i.schedule_id JOIN person p ON p.id = i.recorded_by`;

/** Open ones by their follow-up day, then the closed ones, newest first; at most `limit`. */
export const listInquiries = (reader: Reader, limit: number): Promise<InquiryRow[]> =>
  reader.rows(
    `${SELECT} ORDER BY i.closed_at IS NOT NULL, CASE WHEN i.closed_at IS NULL THEN i.follow_up_on END NULLS LAST, i.recorded_at DESC LIMIT $1::int`,
    [limit],
  );

export const findInquiry = async (reader: Reader, id: string): Promise<InquiryRow | null> =>
  (await reader.rows<InquiryRow>(`${SELECT} WHERE i.id = $1::uuid`, [id]))[0] ?? null;

/** How many inquiries had which outcome; null = still open. */
export const countOutcomes = (reader: Reader): Promise<{ outcome: Outcome | null; count: number; cents: number }[]> =>
  reader.rows(
    'SELECT outcome, count(*)::int AS count, coalesce(sum(total_cents), 0)::int AS cents FROM inquiry GROUP BY outcome ORDER BY count(*) DESC',
  );

export type NewInquiry = Pick<
  InquiryRow,
  'id' | 'caller' | 'phone' | 'email' | 'address' | 'draft' | 'lines' | 'totalCents' | 'followUpOn' | 'note'
> & {
  scheduleId: string;
  recordedAt: Date;
  recordedBy: string;
};

export async function addInquiry(tx: Tx, { followUpOn, draft, lines, ...row }: NewInquiry): Promise<void> {
  const data = {
    ...row,
    draft: draft as Prisma.InputJsonValue,
    lines: lines as unknown as Prisma.InputJsonValue,
    followUpOn: followUpOn === null ? null : dayIn(followUpOn),
  };
  await tx.db.inquiry.create({ data });
}

/** Answers false when somebody else changed it meanwhile. */
export async function setFollowUp(
  tx: Tx,
  id: string,
  version: number,
  { followUpOn, note }: { followUpOn: string | null; note: string },
): Promise<boolean> {
  const data = { followUpOn: followUpOn === null ? null : dayIn(followUpOn), note, version: version + 1 };
  return (await tx.db.inquiry.updateMany({ where: { id, version, closedAt: null }, data })).count === 1;
}

export async function closeInquiry(
  tx: Tx,
  id: string,
  version: number,
  closed: { outcome: Outcome; outcomeNote: string; jobId: string | null; closedAt: Date },
): Promise<boolean> {
  return (
    (await tx.db.inquiry.updateMany({ where: { id, version, closedAt: null }, data: { ...closed, version: version + 1 } })).count === 1
  );
}
