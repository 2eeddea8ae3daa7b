// The days and papers that claim windows hang on: summed, and job by job. See migration 0035.
import type { WindowSum } from '@backsight/domain/liability/exposure';
import { execute, type Reader, type Tx } from '../database.ts';
import type { Days } from './money.ts';

/** Ids of inspections that may have become others since the sums were made; asked for first, so that only these are looked at one by one. */
const touched = async (reader: Reader): Promise<string[]> =>
  (await reader.rows<{ id: string }>('SELECT job_id::text AS id FROM windows_touched((SELECT until FROM figure_state))')).map(
    ({ id }) => id,
  );

const ONE = `jurisdiction, inspected_on::text AS "inspectedOn", completed_on::text AS "completedOn", delivered_on::text AS "deliveredOn", claim_months AS "claimMonths"`;
type Sum = WindowSum & { startedUnsigned: number };

/** What the touched ones change in the sums: each as it is now, and each as it stands in them with the sign turned. */
async function changes(reader: Reader): Promise<Sum[]> {
  const ids = await touched(reader);
  if (ids.length === 0) return [];
  const signed = (
    sign: 1 | -1,
  ): string => `${ONE}, ${sign} AS jobs, ${sign} * signed::int AS signed, CASE WHEN cap_cents IS NULL THEN 0 ELSE ${sign} END AS capped,
    ${sign} * coalesce(cap_cents, 0) AS "capCents", ${sign} * started_unsigned::int AS "startedUnsigned"`;
  return reader.rows<Sum>(
    `SELECT ${signed(1)} FROM windowed_job WHERE job_id = ANY ($1::uuid[]) UNION ALL SELECT ${signed(-1)} FROM job_window WHERE job_id = ANY ($1::uuid[])`,
    [ids],
  );
}

/**
 * Inspections by their days; of those that are summed, the ones whose last day lies before `since` are left out. Rows below 0 take
 * others back that have changed since the sums were made.
 */
export async function windowSums(reader: Reader, since: string): Promise<WindowSum[]> {
  const sums = await reader.rows<WindowSum>(
    `SELECT ${ONE}, jobs, signed, capped, cap_cents AS "capCents" FROM window_figure WHERE greatest(inspected_on, completed_on, delivered_on) >= $1::date`,
    [since],
  );
  const changed = (await changes(reader)).filter(({ inspectedOn, completedOn, deliveredOn }) =>
    [inspectedOn, completedOn, deliveredOn].some((day) => day !== null && day >= since),
  );
  return [...sums, ...changed];
}

/** Inspections that began before every signature was there, within each span of days. */
export async function unsignedStarts(reader: Reader, spans: readonly Days[]): Promise<number[]> {
  const sums = await reader.rows<{ inspectedOn: string; startedUnsigned: number }>(
    'SELECT inspected_on::text AS "inspectedOn", started_unsigned AS "startedUnsigned" FROM window_figure WHERE started_unsigned <> 0',
  );
  const begun = [...sums, ...(await changes(reader))];
  const within = ({ from, to }: Days, day: string): boolean => (from === null || day >= from) && (to === null || day <= to);
  return spans.map((span) => begun.reduce((sum, row) => (within(span, row.inspectedOn) ? sum + row.startedUnsigned : sum), 0));
}

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

/** Inspections that fit: as summed, or, where touched since ($1), as they are now. SEES: whether files for the owner alone count. */
const JOBS = `SELECT w.job_id::text AS "jobId", j.number AS "jobNumber", a.address, a.town, w.jurisdiction, w.inspected_on::text AS "inspectedOn", w.completed_on::text AS "completedOn",
    w.delivered_on::text AS "deliveredOn", w.signed, w.claim_months AS "claimMonths", w.cap_cents AS "capCents",
    EXISTS (SELECT FROM evidence_hold h WHERE h.job_id = w.job_id AND NOT EXISTS (SELECT FROM evidence_hold_lift l WHERE l.hold_id = h.id))
      OR EXISTS (SELECT FROM callback c WHERE c.job_id = w.job_id AND c.state <> 'closed' AND c.kind <> 'question' AND (SEES::boolean OR NOT c.owner_only)) AS held,
    ARRAY(SELECT c.number FROM callback c WHERE c.job_id = w.job_id AND c.state <> 'closed' AND c.kind NOT IN ('question', 'near_miss') AND (SEES::boolean OR NOT c.owner_only) ORDER BY c.number) AS "openCallbacks"
  FROM (SELECT w.* FROM job_window w WHERE FITS AND w.job_id <> ALL ($1::uuid[]) UNION ALL SELECT w.* FROM windowed_job w WHERE w.job_id = ANY ($1::uuid[]) AND FITS) w
    JOIN job j ON j.id = w.job_id JOIN property a ON a.id = j.property_id ORDER BY w.inspected_on DESC, j.number DESC`;
const shown = (fits: string, sees: string): string => JOBS.replaceAll('FITS', fits).replaceAll('SEES', sees);

/** Every inspection of some days, newest first. */
export const windowJobs = async (reader: Reader, days: readonly string[], seeOwnerOnly: boolean): Promise<WindowJob[]> =>
  reader.rows<WindowJob>(shown('w.inspected_on = ANY ($2::date[])', '$3'), [await touched(reader), days, seeOwnerOnly]);

/** Inspections within some days that began before every signature was there, newest first. `most`: null is all. */
export const unsignedStartJobs = async (reader: Reader, days: Days, seeOwnerOnly: boolean, most: number | null): Promise<WindowJob[]> =>
  reader.rows<WindowJob>(
    `${shown('w.started_unsigned AND ($2::date IS NULL OR w.inspected_on >= $2::date) AND ($3::date IS NULL OR w.inspected_on <= $3::date)', '$4')} LIMIT $5::int`,
    [await touched(reader), days.from, days.to, seeOwnerOnly, most],
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
export async function watchedJobs(reader: Reader, seeOwnerOnly: boolean): Promise<Watched[]> {
  const jobs = await reader.rows<{ id: string; held: boolean; openCallbacks: number }>(
    `WITH called AS (SELECT job_id, count(*) FILTER (WHERE kind NOT IN ('question', 'near_miss'))::int AS n, bool_or(kind <> 'question') AS holds FROM callback
         WHERE state <> 'closed' AND ($1::boolean OR NOT owner_only) GROUP BY job_id),
       by_hand AS (SELECT DISTINCT h.job_id FROM evidence_hold h WHERE NOT EXISTS (SELECT FROM evidence_hold_lift l WHERE l.hold_id = h.id))
     SELECT coalesce(c.job_id, h.job_id)::text AS id, h.job_id IS NOT NULL OR coalesce(c.holds, false) AS held, coalesce(c.n, 0) AS "openCallbacks" FROM called c FULL JOIN by_hand h ON h.job_id = c.job_id`,
    [seeOwnerOnly],
  );
  const days = await reader.rows<Omit<Watched, 'held' | 'openCallbacks'> & { id: string }>(
    `SELECT job_id::text AS id, ${ONE} FROM windowed_job WHERE job_id = ANY ($1::uuid[])`,
    [jobs.map(({ id }) => id)],
  );
  const byId = new Map(jobs.map((job) => [job.id, job]));
  return days.map(({ id, ...row }) => ({ ...row, held: byId.get(id)!.held, openCallbacks: byId.get(id)!.openCallbacks }));
}

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
