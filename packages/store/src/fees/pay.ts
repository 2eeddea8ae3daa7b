// Pay rules of persons, and the pay that was frozen for visits. Nothing of callbacks is read here.
import type { PayPart, PayRule } from '@backsight/domain/fees/pay';
import type { Prisma } from '../generated/client.ts';
import { dayIn, touched, type Reader, type Tx } from '../database.ts';

export type PayRuleRow = { id: string; personId: string; person: string; fromDay: string; body: PayRule; recordedAt: Date; by: string };

/** Oldest first by person; of two of one day the later said one comes last. */
export const listPayRules = (reader: Reader): Promise<PayRuleRow[]> =>
  reader.rows(
    `SELECT r.id, r.person_id AS "personId", p.name AS person, r.from_day::text AS "fromDay", r.body, r.recorded_at AS "recordedAt", b.name AS by
    FROM pay_rule r JOIN person p ON p.id = r.person_id JOIN person b ON b.id = r.recorded_by ORDER BY p.name, r.from_day, r.recorded_at, r.id`,
  );

export async function addPayRule(
  tx: Tx,
  { fromDay, body, ...rule }: { id: string; personId: string; fromDay: string; body: PayRule; recordedAt: Date; recordedBy: string },
): Promise<void> {
  await tx.db.payRule.create({
    data: { ...rule, fromDay: dayIn(fromDay), body: body as unknown as Prisma.InputJsonValue },
  });
}

/** Last day of a visit for which the pay of a person is frozen. */
export const lastFrozenDay = async (reader: Reader, personId: string): Promise<string | null> =>
  (
    await reader.rows<{ day: string | null }>('SELECT max(happened_on)::text AS day FROM visit_pay WHERE person_id = $1::uuid', [personId])
  )[0]!.day;

export type VisitToPay = {
  visitId: string;
  day: string;
  minutes: number;
  feeCents: number;
  first: string;
  second: string | null;
  writer: string | null;
};

/**
 * Visits that began, or whose report was recorded, since then, and of which a part may not be frozen: looked up one by one first, because
 * the planner would join every visit ever done before it came to those few.
 */
const NEAR = `WITH near AS MATERIALIZED (SELECT c.id FROM (SELECT id, job_id, kind FROM visit WHERE starts_at >= $2::timestamptz AND state = 'done'
      UNION SELECT n.id, n.job_id, n.kind FROM report r JOIN visit n ON n.job_id = r.job_id AND n.state = 'done' WHERE r.recorded_at >= $2::timestamptz) c
    WHERE (SELECT p.visit_id FROM visit_pay p WHERE p.visit_id = c.id AND p.part = 'first') IS NULL
      OR (SELECT p.visit_id FROM visit_pay p WHERE p.visit_id = c.id AND p.part = 'writer') IS NULL AND (SELECT r.job_id FROM report r JOIN job j ON j.id = r.job_id AND j.kind = c.kind WHERE r.job_id = c.job_id LIMIT 1) IS NOT NULL)`;

/**
 * Visits that are over and not frozen yet, of everything or of what is new since an instant (ISO). A report that is not written yet
 * leaves its writer's part for later.
 */
export const visitsToPay = (reader: Reader, limit: number, since: string | null): Promise<(VisitToPay & { firstFrozen: boolean })[]> =>
  reader.rows(
    `${since === null ? '' : NEAR} SELECT v.id AS "visitId", (v.starts_at AT TIME ZONE o.zone)::date::text AS day, (extract(epoch FROM v.ends_at - v.starts_at) / 60)::int AS minutes,
      CASE WHEN v.kind = j.kind THEN greatest(0, (SELECT coalesce(sum(cents), 0) FROM job_fee_line l WHERE l.job_id = j.id AND l.withdrawn_at IS NULL))::int ELSE 0 END AS "feeCents",
      f.person_id AS first, s.person_id AS second, w.by AS writer, p.visit_id IS NOT NULL AS "firstFrozen"
    FROM ${since === null ? 'visit v' : 'near CROSS JOIN LATERAL (SELECT * FROM visit WHERE id = near.id OFFSET 0) v'} JOIN job j ON j.id = v.job_id JOIN office o ON o.id = j.office_id
    JOIN assignment f ON f.visit_id = v.id AND f.place = 'first' LEFT JOIN assignment s ON s.visit_id = v.id AND s.place = 'second'
    LEFT JOIN LATERAL (SELECT r.prepared_by AS by FROM report r WHERE r.job_id = j.id AND v.kind = j.kind ORDER BY r.version LIMIT 1) w ON true
    LEFT JOIN visit_pay p ON p.visit_id = v.id AND p.part = 'first' LEFT JOIN visit_pay pw ON pw.visit_id = v.id AND pw.part = 'writer'
    WHERE v.state = 'done' AND (p.visit_id IS NULL OR w.by IS NOT NULL AND pw.visit_id IS NULL) ORDER BY v.starts_at, v.id LIMIT $1::int`,
    since === null ? [limit] : [limit, since],
  );

export type FrozenPay = {
  visitId: string;
  personId: string;
  part: PayPart;
  ruleId: string | null;
  feeCents: number;
  minutes: number;
  cents: number;
  reason: string;
  happenedOn: string;
};

/** Freezes pay and answers how many parts were not frozen yet; what is frozen already stays. Constraint: visit_pay_known. */
export const freezePay = (tx: Tx, pay: readonly FrozenPay[], at: Date): Promise<number> =>
  touched(
    tx,
    `INSERT INTO visit_pay (visit_id, person_id, part, rule_id, fee_cents, minutes, cents, reason, happened_on, recorded_at)
     SELECT p."visitId", p."personId", p.part, p."ruleId", p."feeCents", p.minutes, p.cents, p.reason, p."happenedOn", $2::timestamptz
     FROM jsonb_to_recordset($1::jsonb) AS p("visitId" uuid, "personId" uuid, part text, "ruleId" uuid, "feeCents" int, minutes int, cents int, reason text, "happenedOn" date)
     ON CONFLICT DO NOTHING`,
    JSON.stringify(pay),
    at.toISOString(),
  );

export type PayLine = FrozenPay & { person: string; jobId: string; jobNumber: number; address: string; visitKind: string };

/** Frozen pay of visits in a period of days, by person and day; of one person where asked. */
export const payBetween = (reader: Reader, from: string, until: string, personId: string | null): Promise<PayLine[]> =>
  reader.rows(
    `SELECT y.visit_id AS "visitId", y.person_id AS "personId", n.name AS person, y.part, y.rule_id AS "ruleId", y.fee_cents AS "feeCents", y.minutes, y.cents, y.reason, y.happened_on::text AS "happenedOn",
      j.id AS "jobId", j.number AS "jobNumber", p.address, k.name AS "visitKind"
    FROM visit_pay y JOIN person n ON n.id = y.person_id JOIN visit v ON v.id = y.visit_id JOIN visit_kind k ON k.key = v.kind JOIN job j ON j.id = v.job_id JOIN property p ON p.id = j.property_id
    WHERE y.happened_on BETWEEN $1::date AND $2::date AND ($3::uuid IS NULL OR y.person_id = $3::uuid) ORDER BY n.name, y.person_id, y.happened_on, j.number, y.part`,
    [from, until, personId],
  );
