// The days and papers that claim windows hang on: summed, and job by job. See migration 0035.
import type { WindowSum } from '@backsight/domain/liability/exposure';
import { execute, type Reader, type Tx } from '../database.ts';
import type { Days } from './money.ts';

/** Inspections by their days; those whose last day lies before `since` are left out. */
export const windowSums = (reader: Reader, since: string): Promise<WindowSum[]> =>
  reader.rows<WindowSum>(
    `SELECT jurisdiction, inspected_on::text AS "inspectedOn", completed_on::text AS "completedOn", delivered_on::text AS "deliveredOn", claim_months AS "claimMonths", jobs, signed, capped, cap_cents AS "capCents"
     FROM window_sum WHERE greatest(inspected_on, completed_on, delivered_on) >= $1::date`,
    [since],
  );

/** Inspections that began before every signature was there, within each span of days. */
export const unsignedStarts = async (reader: Reader, spans: readonly Days[]): Promise<number[]> =>
  (
    await reader.rows<{ n: number }>(
      `WITH begun AS MATERIALIZED (SELECT inspected_on, started_unsigned FROM window_sum WHERE started_unsigned <> 0)
       SELECT coalesce(sum(b.started_unsigned), 0)::int AS n FROM unnest($1::date[], $2::date[]) WITH ORDINALITY AS s("from", "to", n)
         LEFT JOIN begun b ON (s."from" IS NULL OR b.inspected_on >= s."from") AND (s."to" IS NULL OR b.inspected_on <= s."to") GROUP BY s.n ORDER BY s.n`,
      [spans.map(({ from }) => from), spans.map(({ to }) => to)],
    )
  ).map(({ n }) => n);

export type WindowJob = {
  jobId: string;
  jobNumber: number;
  address: string;
  town: string;
  jurisdiction: string;
  inspectedOn: string;
  completedOn: string | null;
  deliveredOn: string | null;
  signed: boolean;
  claimMonths: number | null;
  capCents: number | null;
  /** Nothing of it may be erased: an open callback that the reader may see, or by hand. */
  held: boolean;
  /** Numbers of its open callbacks that the reader may see. */
  openCallbacks: number[];
};

const JOBS = `SELECT w.job_id, w.jurisdiction, w.inspected_on, w.completed_on, w.delivered_on, w.signed, w.claim_months, w.cap_cents, w.started_unsigned FROM job_window w
    WHERE FITS AND NOT EXISTS (SELECT FROM window_change x WHERE x.job_id = w.job_id)
  UNION ALL SELECT w.job_id, w.jurisdiction, w.inspected_on, w.completed_on, w.delivered_on, w.signed, w.claim_months, w.cap_cents, w.started_unsigned FROM window_change w WHERE w.sign = 1 AND FITS`;
const SHOWN = `SELECT w.job_id::text AS "jobId", j.number AS "jobNumber", a.address, a.town, w.jurisdiction, w.inspected_on::text AS "inspectedOn", w.completed_on::text AS "completedOn",
    w.delivered_on::text AS "deliveredOn", w.signed, w.claim_months AS "claimMonths", w.cap_cents AS "capCents", EXISTS (SELECT FROM evidence_hold h WHERE h.job_id = w.job_id AND NOT EXISTS (SELECT FROM evidence_hold_lift l WHERE l.hold_id = h.id))
      OR EXISTS (SELECT FROM callback c WHERE c.job_id = w.job_id AND c.state <> 'closed' AND c.kind <> 'question' AND (SEES::boolean OR NOT c.owner_only)) AS held,
    ARRAY(SELECT c.number FROM callback c WHERE c.job_id = w.job_id AND c.state <> 'closed' AND c.kind NOT IN ('question', 'near_miss') AND (SEES::boolean OR NOT c.owner_only) ORDER BY c.number) AS "openCallbacks"
  FROM (JOBS) w JOIN job j ON j.id = w.job_id JOIN property a ON a.id = j.property_id ORDER BY w.inspected_on DESC, j.number DESC`;
const shown = (fits: string, sees: string): string => SHOWN.replace('JOBS', JOBS.replaceAll('FITS', fits)).replaceAll('SEES', sees);

/** Every inspection of some days, newest first. */
export const windowJobs = (reader: Reader, days: readonly string[], seeOwnerOnly: boolean): Promise<WindowJob[]> =>
  reader.rows<WindowJob>(shown('w.inspected_on = ANY ($1::date[])', '$2'), [days, seeOwnerOnly]);

/** Inspections within some days that began before every signature was there, newest first. */
export const unsignedStartJobs = (reader: Reader, days: Days, seeOwnerOnly: boolean): Promise<WindowJob[]> =>
  reader.rows<WindowJob>(
    `${shown('w.started_unsigned AND ($1::date IS NULL OR w.inspected_on >= $1::date) AND ($2::date IS NULL OR w.inspected_on <= $2::date)', '$3')} LIMIT 1000`,
    [days.from, days.to, seeOwnerOnly],
  );

/** Jobs of inspections with an open callback or a hold on their evidence, by the days of their windows. */
export type Watched = {
  jurisdiction: string;
  inspectedOn: string;
  completedOn: string | null;
  deliveredOn: string | null;
  claimMonths: number | null;
  held: boolean;
  openCallbacks: number;
};
export const watchedJobs = (reader: Reader, seeOwnerOnly: boolean): Promise<Watched[]> =>
  reader.rows<Watched>(
    `WITH called AS (SELECT job_id, count(*) FILTER (WHERE kind NOT IN ('question', 'near_miss'))::int AS n, bool_or(kind <> 'question') AS holds FROM callback
         WHERE state <> 'closed' AND ($1::boolean OR NOT owner_only) GROUP BY job_id),
       by_hand AS (SELECT DISTINCT h.job_id FROM evidence_hold h WHERE NOT EXISTS (SELECT FROM evidence_hold_lift l WHERE l.hold_id = h.id)),
       job_of AS (SELECT coalesce(c.job_id, h.job_id) AS job_id, coalesce(c.n, 0) AS n, h.job_id IS NOT NULL OR coalesce(c.holds, false) AS held FROM called c FULL JOIN by_hand h ON h.job_id = c.job_id)
     SELECT w.jurisdiction, w.inspected_on::text AS "inspectedOn", w.completed_on::text AS "completedOn", w.delivered_on::text AS "deliveredOn", w.claim_months AS "claimMonths", j.held, j.n AS "openCallbacks"
     FROM job_of j CROSS JOIN LATERAL (SELECT * FROM windowed_job w WHERE w.job_id = j.job_id) w`,
    [seeOwnerOnly],
  );

/** Writes the rows of every inspection anew, and sums them. */
export async function rebuildWindows(tx: Tx): Promise<void> {
  await execute(tx, 'DELETE FROM job_window');
  await execute(tx, 'INSERT INTO job_window SELECT * FROM windowed_job');
  await execute(tx, 'DELETE FROM window_figure');
  await execute(
    tx,
    `INSERT INTO window_figure SELECT row_number() OVER (), jurisdiction, inspected_on, completed_on, delivered_on, claim_months, count(*), count(*) FILTER (WHERE signed), count(cap_cents), coalesce(sum(cap_cents), 0),
       count(*) FILTER (WHERE started_unsigned) FROM job_window GROUP BY jurisdiction, inspected_on, completed_on, delivered_on, claim_months`,
  );
}
