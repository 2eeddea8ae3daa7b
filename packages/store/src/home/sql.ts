// What the statements of the home's lists are made of.

/** What the statements are asked with; each takes the parameters that it names, in its own order. */
export type HomeAsk = {
  now: string;
  me: string;
  today: string;
  tomorrow: string;
  /** The next day on which the office is open. */
  nextOpen: string;
  zone: string;
  monthStart: string;
  /** Waiting for a client since before this takes long. */
  pausedSince: string;
};
export type Statement = { sql: string; needs: readonly (keyof HomeAsk)[] };

/** More lines of one list are counted, and not read. */
export const MOST_LINES = 200;
export const JOB = `JOIN job j ON j.id = v.job_id JOIN property p ON p.id = j.property_id`;
export const WHERE_JOB = `p.address || ', ' || p.town`;
export const pick = (from: string, order: string): string =>
  `SELECT *, count(*) OVER ()::int AS "all" FROM (${from}) listed ORDER BY ${order} LIMIT ${MOST_LINES}`;
export const row = (id: string, thing: string, title: string, detail: string, at: string, day = 'NULL::text'): string =>
  `SELECT ${id} AS id, ${thing}::text AS "thingId", ${title} AS title, ${detail} AS detail, ${at} AS at, ${day} AS day`;
export const of = (kind: string, sql: string): string => sql.replace('SELECT ', `SELECT '${kind}' AS "thingKind", `);
