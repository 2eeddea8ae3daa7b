// Steps by their line of descent: times applied, what records hold, callbacks traced to them, and changes that actions brought.
import type { Kind } from '@backsight/domain/callbacks/words';
import type { Reader } from '../database.ts';
import { LINEAGE } from '../lineage.ts';

export type LineRow = { root: string; title: string; procedureId: string; procedureTitle: string; system: string };

/** The name of each line: the title of its first step in the newest revision that has it. */
export const stepLines = (reader: Reader): Promise<LineRow[]> =>
  reader.rows<LineRow>(
    `SELECT k.key AS root, coalesce((SELECT s.body->>'title' FROM revision_step s JOIN procedure_revision r ON r.id = s.revision_id AND r.state = 'approved' WHERE s.step_key = k.key ORDER BY r.number DESC LIMIT 1), k.key) AS title,
       p.id::text AS "procedureId", p.title AS "procedureTitle", p.system FROM step_key k JOIN procedure p ON p.id = k.procedure_id WHERE k.derived_from IS NULL ORDER BY p.position, k.key`,
  );

export type LineKey = { key: string; root: string; procedureId: string };

/** Every step of the line that a step belongs to; none for an unknown key. */
export const lineOf = (reader: Reader, key: string): Promise<LineKey[]> =>
  reader.rows<LineKey>(
    `${LINEAGE} SELECT l.key, l.root, k.procedure_id::text AS "procedureId" FROM line l JOIN step_key k ON k.key = l.key
     WHERE l.root = (SELECT root FROM line WHERE key = $1) ORDER BY l.key <> l.root, l.key`,
    [key],
  );

/** Months of inspection, YYYY-MM, both included; null is no end. */
export type Months = { from: string | null; until: string | null };
const WITHIN = `($1::date IS NULL OR origin >= $1::date) AND ($2::date IS NULL OR origin <= $2::date)`;
const days = ({ from, until }: Months): (string | null)[] => [from && `${from}-01`, until && `${until}-01`];

export type AppliedSum = { root: string; times: number; jobs: number; judged: number; skipped: number; couldNot: number; differed: number };

/** What visits of the months say of each line; `judged` are times in sealed records. */
export const appliedByLine = (reader: Reader, months: Months): Promise<AppliedSum[]> =>
  reader.rows<AppliedSum>(
    `SELECT step_key AS root, sum(times)::int AS times, sum(jobs)::int AS jobs, sum(judged)::int AS judged, sum(skipped)::int AS skipped, sum(could_not)::int AS "couldNot", sum(differed)::int AS differed
     FROM (SELECT f.*, f.month AS origin FROM step_figure f UNION ALL SELECT l.*, l.month FROM figure_state s CROSS JOIN LATERAL step_figures(s.steps_until, 'infinity') l) every
     WHERE ${WITHIN} GROUP BY 1`,
    days(months),
  );

export type TracedSum = { root: string; failures: number; paidCents: number; reservedCents: number; recoveredCents: number };

/** Failures and money of the callbacks that are traced to each line, by the month of their inspections. */
export const tracedByLine = (reader: Reader, months: Months): Promise<TracedSum[]> =>
  reader.rows<TracedSum>(
    `SELECT value AS root, ${['failures', 'paid', 'reserved', 'recovered']
      .map(
        (measure) =>
          `coalesce(sum(amount) FILTER (WHERE measure = '${measure}'), 0)::bigint AS "${measure === 'failures' ? measure : `${measure}Cents`}"`,
      )
      .join(', ')}
     FROM (SELECT measure, value, origin, amount FROM figure WHERE split = 'step' UNION ALL
       SELECT l.measure, l.value, l.origin, l.amount FROM figure_state s CROSS JOIN LATERAL callback_figures(s.until, 'infinity', ARRAY['step']) l) every
     WHERE ${WITHIN} GROUP BY 1`,
    days(months),
  );

/** Day of the first visit that took place, where the firm is; a job that was never inspected, the day of its booking. */
const ORIGIN = `CROSS JOIN LATERAL (SELECT coalesce(min(v.starts_at), j.recorded_at) AS at FROM visit v WHERE v.job_id = j.id AND v.state IN ('on_site', 'done')) i`;
const BLAMES = `x.cause IN ('skipped', 'done_wrongly', 'not_in_procedure', 'unclear')`;
const COUNTS = `(NOT x.needs_confirmation OR EXISTS (SELECT FROM conclusion_confirmation f WHERE f.conclusion_id = x.id))`;
const NEWEST = `SELECT n.id, n.cause, n.step_key, n.revision_id, n.needs_confirmation FROM conclusion n WHERE n.callback_id = c.id ORDER BY n.happened_at DESC, n.id DESC LIMIT 1`;

/** Paid is what left the bank beside what came back. */
const MONEY = `coalesce(-sum(l.cents) FILTER (WHERE l.account IN ('bank', 'recoveries')), 0)::int AS "paidCents",
  coalesce(-sum(l.cents) FILTER (WHERE l.account = 'callback-reserve'), 0)::int AS "reservedCents", coalesce(-sum(l.cents) FILTER (WHERE l.account = 'recoveries'), 0)::int AS "recoveredCents"`;

/** Near-misses traced to each line. */
export const nearMissesByLine = (reader: Reader, months: Months): Promise<{ root: string; nearMisses: number }[]> =>
  reader.rows(
    `${LINEAGE}, near AS (SELECT l.root, date_trunc('month', i.at AT TIME ZONE (SELECT zone FROM firm))::date AS origin
       FROM callback c JOIN job j ON j.id = c.job_id CROSS JOIN LATERAL (${NEWEST}) x JOIN line l ON l.key = x.step_key ${ORIGIN} WHERE c.kind = 'near_miss' AND c.duplicate_of IS NULL AND ${BLAMES} AND ${COUNTS})
     SELECT root, count(*)::int AS "nearMisses" FROM near WHERE ${WITHIN} GROUP BY 1`,
    days(months),
  );

/** First month of a visit that steps were counted on; null before there is one. */
export async function firstMonth(reader: Reader): Promise<string | null> {
  const [row] = await reader.rows<{ month: string | null }>(
    `SELECT to_char(coalesce((SELECT min(month) FROM step_figure), (SELECT min(l.month) FROM figure_state s CROSS JOIN LATERAL step_figures(s.steps_until, 'infinity') l)), 'YYYY-MM') AS month`,
  );
  return row?.month ?? null;
}

export type TracedCallback = {
  id: string;
  number: number;
  kind: Kind;
  place: string;
  ownerOnly: boolean;
  cause: string;
  revisionId: string;
  receivedAt: Date;
  /** First visit of the job; its booking where it was never inspected. */
  inspectedAt: Date;
  /** The month of it in the firm's zone, YYYY-MM. */
  month: string;
  /** Whether the conclusion may be counted: one that waits for its confirmation may not. */
  counts: boolean;
  paidCents: number;
  reservedCents: number;
  recoveredCents: number;
};

/** Callbacks and near-misses whose newest conclusion blames one of the steps, by when their jobs were inspected. */
export const tracedToSteps = (reader: Reader, keys: readonly string[]): Promise<TracedCallback[]> =>
  reader.rows<TracedCallback>(
    `SELECT c.id::text AS id, c.number, c.kind, c.place, c.owner_only AS "ownerOnly", x.cause, x.revision_id::text AS "revisionId", c.received_at AS "receivedAt", i.at AS "inspectedAt", to_char(i.at AT TIME ZONE (SELECT zone FROM firm), 'YYYY-MM') AS month, ${COUNTS} AS counts,
       m."paidCents", m."reservedCents", m."recoveredCents"
     FROM (SELECT DISTINCT callback_id FROM conclusion WHERE step_key = ANY ($1::text[])) said JOIN callback c ON c.id = said.callback_id JOIN job j ON j.id = c.job_id CROSS JOIN LATERAL (${NEWEST}) x ${ORIGIN}
       CROSS JOIN LATERAL (SELECT ${MONEY} FROM ledger_line l WHERE l.callback_id = c.id) m
     WHERE x.step_key = ANY ($1::text[]) AND ${BLAMES} AND c.kind <> 'question' AND c.duplicate_of IS NULL ORDER BY i.at, c.number`,
    [keys],
  );

/** A place in time to count up to, from the beginning of its month on. */
export type CountUpTo = { id: string; monthStart: Date; at: Date };

/** Times that the steps applied on visits of the same month before each instant; none is left out. For few months with few visits. */
export const timesBefore = (
  reader: Reader,
  keys: readonly string[],
  places: readonly CountUpTo[],
): Promise<{ id: string; times: number }[]> =>
  reader.rows(
    `SELECT f.id::text AS id, count(DISTINCT (s.record_id, s.item_id))::int AS times FROM unnest($2::uuid[], $3::timestamptz[], $4::timestamptz[]) f(id, month_start, at)
       LEFT JOIN LATERAL (SELECT k.record_id, s.item_id FROM visit v JOIN job j ON j.id = v.job_id AND j.kind <> 'callback_visit' JOIN site_record d ON d.visit_id = v.id JOIN site_package k ON k.record_id = d.id
         JOIN package_step s ON s.package_id = k.id AND s.step_key = ANY ($1::text[]) WHERE v.starts_at >= f.month_start AND v.starts_at < f.at) s ON true GROUP BY f.id`,
    [keys, places.map(({ id }) => id), places.map(({ monthStart }) => monthStart.toISOString()), places.map(({ at }) => at.toISOString())],
  );

export type StepAction = {
  id: string;
  number: number;
  revisionId: string;
  callbacks: { id: string; number: number; ownerOnly: boolean }[];
};

/** Corrective actions that brought one of the revisions, with the callbacks they come from. */
export const actionsOfRevisions = (reader: Reader, revisionIds: readonly string[]): Promise<StepAction[]> =>
  reader.rows<StepAction>(
    `SELECT a.id::text AS id, a.number, a.revision_id::text AS "revisionId",
       coalesce((SELECT jsonb_agg(jsonb_build_object('id', c.id, 'number', c.number, 'ownerOnly', c.owner_only) ORDER BY c.number) FROM corrective_action_callback x JOIN callback c ON c.id = x.callback_id WHERE x.action_id = a.id), '[]') AS callbacks
     FROM corrective_action a WHERE a.revision_id = ANY ($1::uuid[]) ORDER BY a.number`,
    [revisionIds],
  );

export type ChangeRow = {
  actionId: string;
  actionNumber: number;
  revisionId: string;
  revisionNumber: number;
  procedureId: string;
  inForceFrom: Date;
};

/** Revisions in force that hold one of the steps and that an action brought, one of whose callbacks is traced to one of them. */
export const changesOfSteps = (reader: Reader, keys: readonly string[], at: Date): Promise<ChangeRow[]> =>
  reader.rows<ChangeRow>(
    `SELECT DISTINCT a.id::text AS "actionId", a.number AS "actionNumber", r.id::text AS "revisionId", r.number AS "revisionNumber", r.procedure_id::text AS "procedureId", f.from_at AS "inForceFrom"
     FROM revision_step s JOIN procedure_revision r ON r.id = s.revision_id JOIN in_force_period f ON f.revision_id = r.id AND f.from_at <= $2::timestamptz JOIN corrective_action a ON a.revision_id = r.id
       JOIN corrective_action_callback y ON y.action_id = a.id JOIN callback c ON c.id = y.callback_id CROSS JOIN LATERAL (${NEWEST}) x
     WHERE s.step_key = ANY ($1::text[]) AND x.step_key = ANY ($1::text[]) ORDER BY "inForceFrom"`,
    [keys, at.toISOString()],
  );
