// Fee schedules: drafts, what is in force and from when; and jobs as a schedule prices them.
import type { FeeSchedule } from '@backsight/domain/fees/schedule';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { Prisma } from '../generated/client.ts';
import { touched, type Reader, type Tx } from '../database.ts';

export type ScheduleState = 'draft' | 'in_force' | 'withdrawn';
export type ScheduleRow = {
  id: string;
  number: number;
  name: string;
  state: ScheduleState;
  inForceFrom: Date | null;
  recordedAt: Date;
  version: number;
  body: FeeSchedule;
};

const COLUMNS = 'id, number, name, state, in_force_from AS "inForceFrom", recorded_at AS "recordedAt", version, body';

/** Newest first, each with how many jobs were booked by it. */
export const listSchedules = (reader: Reader): Promise<(ScheduleRow & { jobs: number })[]> =>
  reader.rows(
    `SELECT ${COLUMNS}, (SELECT count(*)::int FROM job WHERE schedule_id = fee_schedule.id) AS jobs FROM fee_schedule ORDER BY number DESC`,
  );

export const findSchedule = async (reader: Reader, id: string): Promise<ScheduleRow | null> =>
  (await reader.rows<ScheduleRow>(`SELECT ${COLUMNS} FROM fee_schedule WHERE id = $1::uuid`, [id]))[0] ?? null;

export const scheduleInForce = async (reader: Reader, at: Date): Promise<ScheduleRow | null> =>
  (
    await reader.rows<ScheduleRow>(
      `SELECT ${COLUMNS} FROM fee_schedule WHERE state = 'in_force' AND in_force_from <= $1::timestamptz ORDER BY in_force_from DESC, number DESC LIMIT 1`,
      [at.toISOString()],
    )
  )[0] ?? null;

const json = (body: FeeSchedule): Prisma.InputJsonValue => body as unknown as Prisma.InputJsonValue;

/** Numbers follow one another; two drafts begun at once are told apart by the key fee_schedule_number_key. */
export async function addDraft(tx: Tx, { id, name, body, at }: { id: string; name: string; body: FeeSchedule; at: Date }): Promise<number> {
  const [last] = await tx.rows<{ number: number }>('SELECT coalesce(max(number), 0)::int AS number FROM fee_schedule');
  const number = last!.number + 1;
  await tx.db.feeSchedule.create({ data: { id, number, name, body: json(body), state: 'draft', recordedAt: at } });
  return number;
}

/** Answers false when somebody else changed it meanwhile. Constraint: fee_schedule_fixed. */
export async function saveDraft(tx: Tx, id: string, version: number, draft: { name: string; body: FeeSchedule }): Promise<boolean> {
  const { count } = await tx.db.feeSchedule.updateMany({
    where: { id, version, state: 'draft' },
    data: { name: draft.name, body: json(draft.body), version: version + 1 },
  });
  return count === 1;
}

export async function setState(
  tx: Tx,
  id: string,
  version: number,
  to: { state: ScheduleState; inForceFrom: Date | null },
): Promise<boolean> {
  const { count } = await tx.db.feeSchedule.updateMany({ where: { id, version }, data: { ...to, version: version + 1 } });
  return count === 1;
}

export const deleteDraft = (tx: Tx, id: string, version: number): Promise<number> =>
  touched(tx, `DELETE FROM fee_schedule WHERE id = $1::uuid AND version = $2::int AND state = 'draft'`, id, version);

type PricedJob = {
  facts: PropertyFacts;
  services: string[];
  day: string;
  minute: number;
  lat: number;
  lon: number;
  officeLat: number;
  officeLon: number;
};

/** Inspections booked whose visit lies in a period of days, as a schedule prices them; cancelled and lapsed ones are left out. */
export const jobsBetween = (reader: Reader, from: string, until: string): Promise<PricedJob[]> =>
  reader.rows(
    `SELECT j.facts, ARRAY(SELECT service_key FROM job_service s WHERE s.job_id = j.id ORDER BY service_key) AS services, v.day::text AS day, v.minute,
      p.lat, p.lon, o.lat AS "officeLat", o.lon AS "officeLon"
    FROM job j JOIN property p ON p.id = j.property_id JOIN office o ON o.id = j.office_id
    CROSS JOIN LATERAL (SELECT (i.starts_at AT TIME ZONE o.zone)::date AS day, (extract(hour FROM i.starts_at AT TIME ZONE o.zone) * 60 + extract(minute FROM i.starts_at AT TIME ZONE o.zone))::int AS minute
      FROM visit i WHERE i.job_id = j.id AND i.kind = 'inspection' AND i.live ORDER BY i.starts_at LIMIT 1) v
    WHERE j.kind = 'inspection' AND j.state NOT IN ('held', 'cancelled', 'lapsed') AND v.day BETWEEN $1::date AND $2::date ORDER BY v.day, j.id`,
    [from, until],
  );
