// Return times of those who are inside a crawl space or attic or on a roof.
import type { EnteredPlace } from '@backsight/domain/sitework/act';
import { execute, type Reader, type Tx } from '../database.ts';

export type NewWatch = { entryId: string; recordId: string; personId: string; place: EnteredPlace; backBy: Date; recordedAt: Date };

export async function watchReturn(tx: Tx, watch: NewWatch): Promise<void> {
  await tx.db.returnWatch.create({ data: watch });
}

export const cameOut = (tx: Tx, entryId: string, at: Date): Promise<void> =>
  execute(tx, 'UPDATE return_watch SET out_at = $2::timestamptz WHERE entry_id = $1::uuid AND out_at IS NULL', entryId, at.toISOString());

/** `partnerTold`, `officeTold`: whether they were alerted already. */
export type Overdue = {
  entryId: string;
  recordId: string;
  jobId: string;
  jobNumber: number;
  personId: string;
  name: string;
  phone: string;
  place: EnteredPlace;
  backBy: Date;
  zone: string;
  address: string;
  town: string;
  partnerTold: boolean;
  officeTold: boolean;
  partners: { name: string; email: string }[];
};

const OVERDUE = `SELECT w.entry_id::text AS "entryId", w.record_id::text AS "recordId", j.id::text AS "jobId", j.number AS "jobNumber", w.person_id::text AS "personId", p.name, p.phone, w.place, w.back_by AS "backBy",
    o.zone, a.address, a.town, w.partner_told_at IS NOT NULL AS "partnerTold", w.office_told_at IS NOT NULL AS "officeTold",
    coalesce((SELECT jsonb_agg(jsonb_build_object('name', q.name, 'email', q.email) ORDER BY q.name) FROM assignment s JOIN person q ON q.id = s.person_id
      WHERE s.visit_id = v.id AND s.person_id <> w.person_id), '[]'::jsonb) AS partners
  FROM return_watch w JOIN site_record r ON r.id = w.record_id JOIN visit v ON v.id = r.visit_id JOIN job j ON j.id = v.job_id JOIN office o ON o.id = j.office_id JOIN property a ON a.id = j.property_id
    JOIN person p ON p.id = w.person_id`;

/** Whose return time is over at `now` and of whom not everybody was alerted who should be; the office is after `officeAfterMinutes`. */
export const overdueReturns = (reader: Reader, now: Date, officeAfterMinutes: number): Promise<Overdue[]> =>
  reader.rows<Overdue>(
    `${OVERDUE} WHERE w.out_at IS NULL AND w.back_by < $1::timestamptz AND (w.partner_told_at IS NULL OR w.office_told_at IS NULL AND w.back_by < $1::timestamptz - $2::int * interval '1 minute') ORDER BY w.back_by`,
    [now.toISOString(), officeAfterMinutes],
  );

/** One of them, locked until the transaction ends; null when he came out meanwhile. */
export const lockWatch = async (tx: Tx, entryId: string): Promise<Overdue | null> =>
  (await tx.rows<Overdue>(`${OVERDUE} WHERE w.entry_id = $1::uuid AND w.out_at IS NULL FOR UPDATE OF w`, [entryId]))[0] ?? null;

export const markTold = (tx: Tx, entryId: string, whom: 'partner' | 'office', at: Date): Promise<void> =>
  execute(
    tx,
    `UPDATE return_watch SET ${whom === 'partner' ? 'partner_told_at' : 'office_told_at'} = $2::timestamptz WHERE entry_id = $1::uuid`,
    entryId,
    at.toISOString(),
  );
