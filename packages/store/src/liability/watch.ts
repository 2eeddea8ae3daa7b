// What an owner watches besides the money: open callbacks, what waits for a decision, overrides, holds and policies.
import type { Reader } from '../database.ts';
import { OF_MONTH, type Days } from './money.ts';

/** Days since a callback came in, by which open ones are told apart. `most` null: no end. */
export const AGES = [
  { key: 'upTo7', least: 0, most: 7 },
  { key: 'upTo30', least: 7, most: 30 },
  { key: 'upTo90', least: 30, most: 90 },
  { key: 'older', least: 90, most: null },
] as const;
export type Age = (typeof AGES)[number]['key'];

export type OpenRow = { state: string } & Record<Age, number>;

const COUNTS = `c.state <> 'closed' AND c.kind NOT IN ('question', 'near_miss') AND ($2::boolean OR NOT c.owner_only)`;
const aged = ({ least, most }: (typeof AGES)[number]): string =>
  `$1::timestamptz - c.received_at > '${least === 0 ? -36500 : least} days'${most === null ? '' : ` AND $1::timestamptz - c.received_at <= '${most} days'`}`;

/** Open callbacks (questions and near-misses left out) by state and days since they came in. */
export const openByAge = (reader: Reader, now: Date, seeOwnerOnly: boolean): Promise<OpenRow[]> =>
  reader.rows<OpenRow>(
    `SELECT c.state, ${AGES.map((age) => `count(*) FILTER (WHERE ${aged(age)})::int AS "${age.key}"`).join(', ')} FROM callback c WHERE ${COUNTS} GROUP BY c.state
     ORDER BY array_position(ARRAY['received', 'acknowledged', 'looking_into', 'concluded', 'remedy_agreed'], c.state)`,
    [now.toISOString(), seeOwnerOnly],
  );

export type OpenCallback = {
  id: string;
  number: number;
  kind: string;
  state: string;
  receivedAt: Date;
  days: number;
  address: string;
  town: string;
  reservedCents: number;
  paidCents: number;
};

const ONE = `SELECT c.id::text AS id, c.number, c.kind, c.state, c.received_at AS "receivedAt", extract(day FROM $1::timestamptz - c.received_at)::int AS days, a.address, a.town,
    (SELECT coalesce(-sum(l.cents), 0)::bigint FROM ledger_line l WHERE l.callback_id = c.id AND l.account = 'callback-reserve') AS "reservedCents",
    (SELECT coalesce(-sum(l.cents), 0)::bigint FROM ledger_line l WHERE l.callback_id = c.id AND l.account IN ('bank', 'recoveries')) AS "paidCents"
  FROM callback c JOIN job j ON j.id = c.job_id JOIN property a ON a.id = j.property_id`;

/** Callbacks that count about jobs of one month of inspection (YYYY-MM), open or closed, newest first. `most`: null is all. */
export const callbacksOfMonth = (
  reader: Reader,
  of: { now: Date; seeOwnerOnly: boolean; inspected: string },
  most: number | null,
): Promise<OpenCallback[]> =>
  reader.rows<OpenCallback>(
    `${ONE} WHERE c.id IN (${OF_MONTH}) AND c.kind NOT IN ('question', 'near_miss') AND c.duplicate_of IS NULL AND ($2::boolean OR NOT c.owner_only) ORDER BY c.number DESC LIMIT $4::int`,
    [of.now.toISOString(), of.seeOwnerOnly, of.inspected, most],
  );

/** Open callbacks of one state or age, oldest first. */
export const openCallbacks = (
  reader: Reader,
  of: { now: Date; seeOwnerOnly: boolean; state: string | null; age: Age | null },
  most: number | null,
): Promise<OpenCallback[]> =>
  reader.rows<OpenCallback>(
    `${ONE}
     WHERE ${COUNTS} AND ($3::text IS NULL OR c.state = $3) AND (${AGES.map((age) => `($4 = '${age.key}' AND ${aged(age)})`).join(' OR ')} OR $4::text IS NULL) ORDER BY c.received_at, c.number LIMIT $5::int`,
    [of.now.toISOString(), of.seeOwnerOnly, of.state, of.age, most],
  );

export type WaitingRemedy = {
  remedyId: string;
  callbackId: string;
  number: number;
  kind: string;
  state: 'proposed' | 'approved';
  cents: number;
  proposer: string;
  recordedAt: Date;
};
/** Remedies that wait for approval, and approved ones that are still to be done. */
export const remediesWaiting = (reader: Reader, seeOwnerOnly: boolean, most: number | null): Promise<WaitingRemedy[]> =>
  reader.rows<WaitingRemedy>(
    `SELECT r.id::text AS "remedyId", c.id::text AS "callbackId", c.number, r.kind, r.state, r.cents, p.name AS proposer, r.recorded_at AS "recordedAt" FROM remedy r JOIN callback c ON c.id = r.callback_id
       JOIN person p ON p.id = r.proposed_by WHERE r.state IN ('proposed', 'approved') AND ($1::boolean OR NOT c.owner_only) ORDER BY r.state = 'approved', r.recorded_at LIMIT $2::int`,
    [seeOwnerOnly, most],
  );

export type WaitingConclusion = { callbackId: string; number: number; by: string; happenedAt: Date };
/** Newest conclusions of open callbacks that somebody else must confirm before anything is decided on them. */
export const conclusionsWaiting = (reader: Reader, seeOwnerOnly: boolean, most: number | null): Promise<WaitingConclusion[]> =>
  reader.rows<WaitingConclusion>(
    `SELECT c.id::text AS "callbackId", c.number, p.name AS by, x.happened_at AS "happenedAt" FROM callback c
       JOIN LATERAL (SELECT n.id, n.actor_id, n.happened_at, n.needs_confirmation FROM conclusion n WHERE n.callback_id = c.id ORDER BY n.happened_at DESC, n.id DESC LIMIT 1) x ON true JOIN person p ON p.id = x.actor_id
     WHERE c.state <> 'closed' AND x.needs_confirmation AND NOT EXISTS (SELECT FROM conclusion_confirmation f WHERE f.conclusion_id = x.id) AND ($1::boolean OR NOT c.owner_only) ORDER BY x.happened_at LIMIT $2::int`,
    [seeOwnerOnly, most],
  );

const OVERRIDES = `SELECT 'start' AS kind, g.id, v.job_id, g.missing, g.reason, g.actor_id, g.happened_at FROM gate_override g JOIN visit v ON v.id = g.visit_id
  UNION ALL SELECT 'hand_over', h.id, h.job_id, h.missing, h.reason, h.actor_id, h.happened_at FROM hand_over_override h`;
const ON = `(SELECT zone FROM firm)`;
const IN_DAYS = `($1::date IS NULL OR x.happened_at >= $1::date::timestamp AT TIME ZONE ${ON}) AND ($2::date IS NULL OR x.happened_at < ($2::date + 1)::timestamp AT TIME ZONE ${ON})`;

/** Starts and reports let through though something was missing, within each span of days where the firm is. */
export async function overridesWithin(reader: Reader, spans: readonly Days[]): Promise<number[]> {
  const counts: number[] = [];
  for (const { from, to } of spans)
    counts.push((await reader.rows<{ n: number }>(`SELECT count(*)::int AS n FROM (${OVERRIDES}) x WHERE ${IN_DAYS}`, [from, to]))[0]!.n);
  return counts;
}

export type Override = {
  id: string;
  kind: 'start' | 'hand_over';
  jobId: string;
  jobNumber: number;
  missing: string[];
  reason: string;
  by: string;
  happenedAt: Date;
};
/** The same one by one, newest first. */
export const overrides = (reader: Reader, { from, to }: Days, most: number | null): Promise<Override[]> =>
  reader.rows<Override>(
    `SELECT x.id::text AS id, x.kind, x.job_id::text AS "jobId", j.number AS "jobNumber", x.missing, x.reason, p.name AS by, x.happened_at AS "happenedAt" FROM (${OVERRIDES}) x JOIN job j ON j.id = x.job_id
       JOIN person p ON p.id = x.actor_id WHERE ${IN_DAYS} ORDER BY x.happened_at DESC, x.id DESC LIMIT $3::int`,
    [from, to, most],
  );

export type HeldJob = {
  jobId: string;
  jobNumber: number;
  address: string;
  town: string;
  /** Numbers of open callbacks that hold it. */
  callbacks: number[];
  /** Set by hand, the oldest that stands; null: none. */
  byHandSince: Date | null;
  by: string | null;
};
/** Jobs of which nothing may be erased now, by open callbacks that the reader may see and by hand. */
export const heldJobs = (reader: Reader, seeOwnerOnly: boolean): Promise<HeldJob[]> =>
  reader.rows<HeldJob>(
    `WITH called AS (SELECT job_id, array_agg(number ORDER BY number) AS numbers FROM callback WHERE state <> 'closed' AND kind <> 'question' AND ($1::boolean OR NOT owner_only) GROUP BY job_id),
       by_hand AS (SELECT DISTINCT ON (h.job_id) h.job_id, h.happened_at, h.actor_id FROM evidence_hold h WHERE NOT EXISTS (SELECT FROM evidence_hold_lift l WHERE l.hold_id = h.id) ORDER BY h.job_id, h.happened_at)
     SELECT j.id::text AS "jobId", j.number AS "jobNumber", a.address, a.town, coalesce(c.numbers, ARRAY[]::int[]) AS callbacks, h.happened_at AS "byHandSince", p.name AS by
     FROM called c FULL JOIN by_hand h ON h.job_id = c.job_id JOIN job j ON j.id = coalesce(c.job_id, h.job_id) JOIN property a ON a.id = j.property_id LEFT JOIN person p ON p.id = h.actor_id ORDER BY j.number`,
    [seeOwnerOnly],
  );

export type EndingPolicy = { id: string; kind: string; insurer: string; number: string; basis: string; endsOn: string };
/** Policies that end within the days given and that no other follows, and those that ended without one in the year before. */
export const policiesEnding = (reader: Reader, from: string, to: string): Promise<EndingPolicy[]> =>
  reader.rows<EndingPolicy>(
    `SELECT i.id::text AS id, i.kind, i.insurer, i.number, i.basis, i.ends_on::text AS "endsOn" FROM insurance_policy i WHERE i.ends_on BETWEEN $1::date AND $2::date
       AND NOT EXISTS (SELECT FROM insurance_policy n WHERE n.kind = i.kind AND n.starts_on <= i.ends_on + 1 AND n.ends_on > i.ends_on) ORDER BY i.ends_on`,
    [from, to],
  );

/** The first day on which the firm inspected; null where it never did. */
export const firstInspection = async (reader: Reader): Promise<string | null> =>
  (await reader.rows<{ day: string | null }>('SELECT min(inspected_on)::text AS day FROM job_window'))[0]?.day ?? null;

/** Whether there are files for the owner alone. */
export const hasOwnerOnly = async (reader: Reader): Promise<boolean> =>
  (await reader.rows<{ yes: boolean }>('SELECT EXISTS (SELECT FROM callback WHERE owner_only) AS yes'))[0]!.yes;
