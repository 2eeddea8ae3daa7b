// Years for which records are kept, what is due, and the one function of the database that disposes of it.
import { execute, type Reader, type Tx } from '../database.ts';
import type { RecordKind } from '@backsight/domain/personal/retention';

export type RuleSet = { kind: RecordKind; years: number; reason: string; by: string; at: Date };

/** What owners set, the newest of each kind. */
export const retentionRules = (reader: Reader): Promise<RuleSet[]> =>
  reader.rows<RuleSet>(
    `SELECT DISTINCT ON (r.kind) r.kind, r.years, r.reason, p.name AS by, r.recorded_at AS at FROM retention_rule r JOIN person p ON p.id = r.actor_id ORDER BY r.kind, r.recorded_at DESC, r.id DESC`,
  );

type NewRule = { id: string; kind: string; years: number; reason: string; actorId: string; recordedAt: Date };
/** Rule: retention_too_short. */
export const saveRetentionRule = (tx: Tx, row: NewRule): Promise<void> => tx.db.retentionRule.create({ data: row });

/** States of the firm, its offices and its houses. */
export const statesAtWork = async (reader: Reader): Promise<string[]> =>
  (
    await reader.rows<{ state: string }>(
      `SELECT unnest(states) AS state FROM firm UNION SELECT jurisdiction FROM office UNION SELECT DISTINCT state FROM property WHERE state <> '' ORDER BY 1`,
    )
  ).map(({ state }) => state);

export type DueRow = { kind: RecordKind; id: string; name: string; lastDay: string; until: string; held: string | null; holds: string };

const JOB_NAME = `'Job ' || j.number || ', ' || a.address || ', ' || a.town`;
const count = (from: string, one: string, many: string): string =>
  `(SELECT CASE count(*) WHEN 0 THEN NULL WHEN 1 THEN '1 ${one}' ELSE count(*) || ' ${many}' END FROM ${from})`;
const FILE_HOLDS = `concat_ws(', ', ${[
  count('agreement x WHERE x.job_id = j.id', 'agreement', 'agreements'),
  count('report x WHERE x.job_id = j.id', 'version of the report', 'versions of the report'),
  count('site_record x JOIN visit v ON v.id = x.visit_id WHERE v.job_id = j.id', 'site record', 'site records'),
  count(
    'site_photo x JOIN site_record r ON r.id = x.record_id JOIN visit v ON v.id = r.visit_id WHERE v.job_id = j.id',
    'photo or spoken note',
    'photos and spoken notes',
  ),
].join(', ')})`;
const MAILS = count(
  'outgoing_mail x WHERE x.about_id IN (SELECT j.id UNION ALL SELECT id FROM report WHERE job_id = j.id UNION ALL SELECT id FROM invoice WHERE job_id = j.id)',
  'mail',
  'mails',
);
const CALLBACKS = count('callback x WHERE x.job_id = j.id', 'callback', 'callbacks');

/** So many of a kind are shown at once, those of the oldest jobs: a firm that never disposed has thousands. */
export const DUE_AT_ONCE = 100;

/** Until when a kind is kept at least after its job was recorded; the law and later matters may only keep it longer. */
const LEAST_YEARS = {
  job: `greatest(retention_years('job'), retention_years('mail'))`,
  mail: `retention_years('mail')`,
  callback: `retention_years('callback')`,
};
/** What may keep a job is asked before its time is worked out, because hardly any job is held. */
const HELD = `EXISTS (SELECT FROM job_clock c WHERE c.family = coalesce(j.parent_id, j.id) AND coalesce(c.held, c.unfinished) IS NOT NULL) AND k.held IS NOT NULL`;

const ofJobs = (kind: keyof typeof LEAST_YEARS, holds: string, also = 'true'): string => {
  const over = `< $1::date + 1 - make_interval(years => ${LEAST_YEARS[kind]})`;
  const which = (held: string): string =>
    `(SELECT '${kind}' AS kind, j.id::text AS id, ${JOB_NAME} AS name, (SELECT last_day FROM job_clock c WHERE c.job_id = j.id)::text AS "lastDay", k.until::text AS until, k.held, coalesce(${holds}, '') AS holds
   FROM (SELECT * FROM job WHERE bring_in_id IS NULL AND recorded_at ${over}
       UNION ALL SELECT * FROM job b WHERE bring_in_id IS NOT NULL AND (SELECT max(v.ends_at) FROM visit v WHERE v.job_id = b.id) ${over} ORDER BY recorded_at, id OFFSET 0) j
     JOIN property a ON a.id = j.property_id CROSS JOIN LATERAL keep_until('${kind}', j.id) k
   WHERE k.until < $1::date AND ${held} AND NOT EXISTS (SELECT FROM disposal d WHERE d.kind = '${kind}' AND d.thing_id = j.id) AND ${also}
   ORDER BY j.recorded_at, j.id LIMIT ${DUE_AT_ONCE})`;
  // Two sets of jobs and no OR between them: the index on when a job was recorded finds the old ones, however many came since. They stand in
  // their order before anything else is asked (OFFSET keeps it so), so that looking ends with the last one that is shown.
  return `${which('k.held IS NULL')} UNION ALL ${which(HELD)}`;
};

const DUE = `${ofJobs('job', `concat_ws(', ', nullif(${FILE_HOLDS}, ''), ${MAILS}, ${CALLBACKS})`)}
  UNION ALL ${ofJobs('mail', MAILS, `${MAILS} IS NOT NULL`)}
  UNION ALL ${ofJobs('callback', CALLBACKS, 'EXISTS (SELECT FROM callback x WHERE x.job_id = j.id)')}
  UNION ALL SELECT 'inquiry', q.id::text, q.caller || ', ' || q.address, coalesce(q.closed_at, q.recorded_at)::date::text, k.until::text, k.held, 'what was offered' FROM inquiry q CROSS JOIN LATERAL keep_until('inquiry', q.id) k
    WHERE q.job_id IS NULL AND k.until < $1::date AND NOT EXISTS (SELECT FROM disposal d WHERE d.kind = 'inquiry' AND d.thing_id = q.id)
  UNION ALL SELECT 'staff', p.id::text, p.name, p.ended_on::text, k.until::text, k.held, 'licenses, education, absences, hours, addresses' FROM person p CROSS JOIN LATERAL keep_until('staff', p.id) k
    WHERE k.until < $1::date AND NOT EXISTS (SELECT FROM disposal d WHERE d.kind = 'staff' AND d.thing_id = p.id)`;

/** What of all kinds would be over on a day, the oldest first; `held` says what keeps it. Mail and callbacks of a job stand beside its file. */
export const dueOn = (reader: Reader, today: string): Promise<DueRow[]> =>
  reader.rows<DueRow>(`SELECT * FROM (${DUE}) x ORDER BY until, name, kind`, [today]);

export type DisposalRow = {
  id: string;
  kind: RecordKind;
  name: string;
  because: 'retention' | 'asked';
  keptUntil: string;
  by: string;
  at: Date;
};

/** The newest disposals; names are those of what is left. */
export const lastDisposals = (reader: Reader, limit: number): Promise<DisposalRow[]> =>
  reader.rows<DisposalRow>(
    `SELECT d.id::text AS id, d.kind, coalesce((SELECT 'Job ' || number FROM job WHERE id = d.thing_id), '') AS name, d.because, d.kept_until::text AS "keptUntil", p.name AS by, d.recorded_at AS at
     FROM disposal d JOIN person p ON p.id = d.actor_id ORDER BY d.recorded_at DESC, d.id DESC LIMIT ${limit}`,
  );

/** Of a unit: until when it has to be kept and what holds it; null where there is nothing of the kind. */
export const keepUntil = async (reader: Reader, kind: RecordKind, id: string): Promise<{ until: string; held: string | null } | null> =>
  (
    await reader.rows<{ until: string | null; held: string | null }>('SELECT until::text AS until, held FROM keep_until($1, $2::uuid)', [
      kind,
      id,
    ])
  ).find((row): row is { until: string; held: string | null } => row.until !== null) ?? null;

export const isDisposed = async (reader: Reader, kind: RecordKind, id: string): Promise<boolean> =>
  (await reader.rows('SELECT 1 FROM disposal WHERE kind = $1 AND thing_id = $2::uuid', [kind, id])).length > 0;

type NewDisposal = { id: string; kind: RecordKind; thingId: string; because: 'retention' | 'asked'; actorId: string; at: Date };
export type Gone = { rows: number; words: number; files: number };

/** Puts a disposal on file and takes out what it is about. Rules: retention_not_over, evidence_held, not_finished, nothing_to_dispose_of, disposal_kind_thing_id_key. */
export async function dispose(tx: Tx, { at, ...row }: NewDisposal): Promise<Gone> {
  await tx.db.disposal.create({ data: { ...row, keptUntil: at, recordedAt: at } });
  const rows = await tx.rows<{ what: keyof Gone; n: number }>('SELECT what, n FROM dispose($1, $2::uuid, $3::timestamptz)', [
    row.kind,
    row.thingId,
    at,
  ]);
  return { rows: 0, words: 0, files: 0, ...Object.fromEntries(rows.map(({ what, n }) => [what, n])) };
}

/** From what an address names to its job. */
const JOB_OF = {
  jobs: '$2::uuid',
  callbacks: '(SELECT job_id FROM callback WHERE id = $2::uuid)',
  agreements: '(SELECT job_id FROM agreement WHERE id = $2::uuid)',
  reports: '(SELECT job_id FROM report WHERE id = $2::uuid)',
  visits: '(SELECT job_id FROM visit WHERE id = $2::uuid)',
  'site-records': '(SELECT v.job_id FROM site_record r JOIN visit v ON v.id = r.visit_id WHERE r.id = $2::uuid)',
} as const;
export type JobThing = keyof typeof JOB_OF;

/** When the records of a thing were disposed of, with the number of its job; null = they are there. A callback may go before the file of its job. */
export const disposedOn = async (reader: Reader, of: JobThing, id: string): Promise<{ number: number; day: string } | null> =>
  (
    await reader.rows<{ number: number; day: string }>(
      `SELECT j.number, d.recorded_at::date::text AS day FROM disposal d JOIN job j ON j.id = d.thing_id WHERE d.kind = ANY ($1::text[]) AND d.thing_id = ${JOB_OF[of]} ORDER BY d.recorded_at LIMIT 1`,
      [of === 'callbacks' ? ['job', 'callback'] : ['job'], id],
    )
  )[0] ?? null;

/** Fingerprints of files whose bytes are to go. */
export const erasedFiles = async (reader: Reader): Promise<string[]> =>
  (await reader.rows<{ sha256: string }>('SELECT sha256 FROM stored_file WHERE erased_at IS NOT NULL')).map(({ sha256 }) => sha256);

/** One disposer at a time: what is due is looked at and taken out in one go. */
export const lockDisposal = (tx: Tx): Promise<void> =>
  execute(tx, `SELECT pg_advisory_xact_lock(hashtextextended('backsight disposal', 0))`);
