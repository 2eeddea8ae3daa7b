// The on-call list, and who was alerted of a danger when, until somebody had it.
import type { Duty } from '@backsight/domain/callbacks/onCall';
import { dayIn, type Reader, type Tx } from '../database.ts';

export type DutyRow = Duty & { id: string; name: string; recordedAt: Date; by: string | null };

/** Duties and exceptions that were not taken back and are not over on the ISO day. */
export const listDuties = (reader: Reader, from: string): Promise<DutyRow[]> =>
  reader.rows<DutyRow>(
    `SELECT d.id::text AS id, d.person_id::text AS "personId", p.name, d.is_on AS on, d.position, d.weekdays, d.start_minute AS "startMinute", d.end_minute AS "endMinute", d.from_day::text AS "fromDay",
       d.until_day::text AS "untilDay", d.recorded_at AS "recordedAt", w.name AS by
     FROM on_call_duty d JOIN person p ON p.id = d.person_id LEFT JOIN person w ON w.id = d.recorded_by WHERE d.ended_at IS NULL AND (d.until_day IS NULL OR d.until_day >= $1::date) ORDER BY d.position, p.name, d.from_day`,
    [from],
  );

export type NewDuty = Duty & { id: string; recordedAt: Date; recordedBy: string };
export async function saveDuty(tx: Tx, duty: NewDuty): Promise<void> {
  const { fromDay, untilDay, weekdays, on: isOn, ...row } = duty;
  await tx.db.onCallDuty.create({
    data: { ...row, isOn, weekdays: [...weekdays], fromDay: dayIn(fromDay), untilDay: untilDay === null ? null : dayIn(untilDay) },
  });
}
/** Answers whether there was one to take back. */
export const endDuty = async (tx: Tx, id: string, at: Date, by: string): Promise<boolean> =>
  (await tx.db.onCallDuty.updateMany({ where: { id, endedAt: null }, data: { endedAt: at, endedBy: by } })).count === 1;

/** Who is away at an instant, by an absence that was approved. */
export const awayAt = async (reader: Reader, at: Date): Promise<ReadonlySet<string>> =>
  new Set(
    (
      await reader.rows<{ id: string }>(
        `SELECT DISTINCT a.person_id::text AS id FROM absence a WHERE a.withdrawn_at IS NULL AND a.state = 'approved' AND a.starts_at <= $1::timestamptz AND a.ends_at > $1::timestamptz`,
        [at.toISOString()],
      )
    ).map(({ id }) => id),
  );

/** Constraint: danger_chain_runs_once. */
export const saveChain = (tx: Tx, chain: { id: string; callbackId: string; startedAt: Date }): Promise<void> =>
  tx.db.dangerChain.create({ data: chain });
/** Constraint: danger_alert_chain_id_n_key. */
export const saveAlert = (tx: Tx, alert: { id: string; chainId: string; n: number; personId: string; at: Date }): Promise<void> =>
  tx.db.dangerAlert.create({ data: alert });

/** Somebody has it: the chain that runs for a callback ends. Answers whether one ran. */
export const answerChain = async (tx: Tx, callbackId: string, at: Date, by: string): Promise<boolean> =>
  (await tx.db.dangerChain.updateMany({ where: { callbackId, answeredAt: null, endedAt: null }, data: { answeredAt: at, answeredBy: by } }))
    .count > 0;
/** The mark was lifted: the chain ends without an answer. */
export const endChain = async (tx: Tx, callbackId: string, at: Date): Promise<void> =>
  void (await tx.db.dangerChain.updateMany({ where: { callbackId, answeredAt: null, endedAt: null }, data: { endedAt: at } }));

export type ChainRow = {
  id: string;
  callbackId: string;
  startedAt: Date;
  answeredAt: Date | null;
  answeredBy: string | null;
  answeredById: string | null;
  endedAt: Date | null;
  alerts: { n: number; personId: string; name: string; at: string }[];
};
const CHAIN = `SELECT h.id::text AS id, h.callback_id::text AS "callbackId", h.started_at AS "startedAt", h.answered_at AS "answeredAt", w.name AS "answeredBy", h.answered_by::text AS "answeredById", h.ended_at AS "endedAt",
  coalesce((SELECT jsonb_agg(jsonb_build_object('n', a.n, 'personId', a.person_id, 'name', p.name, 'at', a.at) ORDER BY a.n) FROM danger_alert a JOIN person p ON p.id = a.person_id WHERE a.chain_id = h.id), '[]') AS alerts
  FROM danger_chain h LEFT JOIN person w ON w.id = h.answered_by`;

/** The chains of a callback, the newest first. */
export const chainsOf = (reader: Reader, callbackId: string): Promise<ChainRow[]> =>
  reader.rows<ChainRow>(`${CHAIN} WHERE h.callback_id = $1::uuid ORDER BY h.started_at DESC`, [callbackId]);

/** Chains that nobody answered and whose newest alert is older than an instant. */
export const chainsWaiting = (reader: Reader, alertedBefore: Date): Promise<{ id: string; callbackId: string }[]> =>
  reader.rows(
    `SELECT h.id::text AS id, h.callback_id::text AS "callbackId" FROM danger_chain h WHERE h.answered_at IS NULL AND h.ended_at IS NULL
       AND NOT EXISTS (SELECT FROM danger_alert a WHERE a.chain_id = h.id AND a.at > $1::timestamptz) ORDER BY h.started_at`,
    [alertedBefore.toISOString()],
  );
