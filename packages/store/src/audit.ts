// The audit trail: rows as they happen, seals that chain them, and the walk that proves nothing was changed or cut out.
import { createHash } from 'node:crypto';
import type { Prisma } from './generated/client.ts';
import type { Database, Reader, Tx } from './database.ts';

export type AuditEntry = {
  id: string;
  actorKind: 'person' | 'client' | 'service';
  actorId: string | null;
  operation: string;
  thingKind: string;
  thingId: string;
  details: Prisma.InputJsonValue;
  at: Date;
};

/** Adds one row; it is chained a moment later, so that no act waits for another. */
export async function addAuditRow(tx: Tx, e: AuditEntry): Promise<void> {
  const { at, ...rest } = e;
  await tx.db.auditRow.create({ data: { ...rest, happenedAt: at, recordedAt: at } });
}

type SealedRow = { sealNo: number; auditId: string; hash: string; line: string };

/** One row as the text that is hashed. jsonb prints its keys in one fixed order, so the text is the same for ever. */
export const AUDIT_LINE = `concat_ws('|', a.id, a.actor_kind, coalesce(a.actor_id::text, ''), a.operation, a.thing_kind, a.thing_id, a.details::text,
  to_char(a.happened_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS'), to_char(a.recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS'))`;

const FIRST = '0'.repeat(64);
const next = (before: string, sealNo: number, line: string): string =>
  createHash('sha256').update(`${before}|${sealNo}|${line}`, 'utf8').digest('hex');

/** No transaction is open that long; only a clock that was set back can write rows before that. */
const NEAR = `a.recorded_at >= $1::timestamptz - interval '1 day'`;

/**
 * Seals unsealed rows, oldest first. Only one sealer works at a time. Returns how many were sealed. `near` looks no further back than
 * a day before the row that was sealed last, which costs the same every second however long the trail is.
 */
export async function sealAudit(database: Database, { limit = 500, near = false } = {}): Promise<number> {
  return database.transaction(async (tx) => {
    const [lock] = await tx.rows<{ mine: boolean }>(
      `SELECT pg_try_advisory_xact_lock(hashtextextended('backsight audit sealer', 0)) AS mine`,
    );
    if (!lock?.mine) return 0;
    const [last] = await tx.rows<{ sealNo: number; hash: string; at: Date }>(
      'SELECT s.seal_no AS "sealNo", s.hash, a.recorded_at AS at FROM audit_seal s JOIN audit_row a ON a.id = s.audit_id ORDER BY s.seal_no DESC LIMIT 1',
    );
    const since = near && last ? [last.at] : [];
    const fresh = await tx.rows<{ id: string; line: string }>(
      `SELECT a.id::text AS id, ${AUDIT_LINE} AS line FROM audit_row a LEFT JOIN audit_seal s ON s.audit_id = a.id WHERE s.audit_id IS NULL ${since.length > 0 ? `AND ${NEAR}` : ''} ORDER BY a.recorded_at, a.id LIMIT ${limit}`,
      since,
    );
    let hash = last?.hash ?? FIRST;
    let sealNo = last?.sealNo ?? 0;
    const data = fresh.map((row) => ({ sealNo: BigInt(++sealNo), auditId: row.id, hash: (hash = next(hash, sealNo, row.line)) }));
    if (data.length > 0) await tx.db.auditSeal.createMany({ data });
    return data.length;
  });
}

export type AuditCheck = { sealed: number; unsealed: number; brokenAt: number | null; newest: string | null };

/** Walks the whole chain. `brokenAt` is the first seal number that does not fit what the rows say now. */
export async function verifyAudit(reader: Reader): Promise<AuditCheck> {
  let hash = FIRST;
  let at = 0;
  for (;;) {
    const page = await reader.rows<SealedRow>(
      `SELECT s.seal_no AS "sealNo", s.audit_id AS "auditId", s.hash, ${AUDIT_LINE} AS line FROM audit_seal s JOIN audit_row a ON a.id = s.audit_id WHERE s.seal_no > $1::bigint ORDER BY s.seal_no LIMIT 2000`,
      [at],
    );
    if (page.length === 0) break;
    for (const row of page) {
      const want = next(hash, at + 1, row.line);
      if (row.sealNo !== at + 1 || row.hash !== want) return { sealed: at, unsealed: 0, brokenAt: at + 1, newest: hash };
      hash = want;
      at = row.sealNo;
    }
  }
  const [left] = await reader.rows<{ n: number }>(
    'SELECT count(*)::int AS n FROM audit_row a LEFT JOIN audit_seal s ON s.audit_id = a.id WHERE s.audit_id IS NULL',
  );
  return { sealed: at, unsealed: left?.n ?? 0, brokenAt: null, newest: at === 0 ? null : hash };
}

export type AuditLine = {
  id: string;
  at: Date;
  actorKind: AuditEntry['actorKind'];
  actorName: string | null;
  operation: string;
  thingKind: string;
  thingId: string;
  /** What people call it, such as job 1044; null where its kind says enough or it is gone. */
  thingName: string | null;
  details: Record<string, unknown>;
  sealNo: number | null;
};

const ofJob = (words: string, from: string, id = 'x.id'): string =>
  `(SELECT '${words} ' || j.number FROM ${from} JOIN job j ON j.id = x.job_id WHERE ${id} = a.thing_id)`;

/** Names of what is kept under numbers and names; everything else is told by its kind. */
const THING_NAME = `CASE a.thing_kind
  WHEN 'job' THEN (SELECT 'job ' || x.number FROM job x WHERE x.id = a.thing_id)
  WHEN 'visit' THEN ${ofJob('visit of job', 'visit x')}
  WHEN 'site-record' THEN ${ofJob('site record of job', 'site_record s JOIN visit x ON x.id = s.visit_id', 's.id')}
  WHEN 'report' THEN ${ofJob('report of job', 'report x')}
  WHEN 'agreement' THEN ${ofJob('agreement of job', 'agreement x')}
  WHEN 'signer' THEN ${ofJob('signer of job', 'signer s JOIN agreement x ON x.id = s.agreement_id', 's.id')}
  WHEN 'later-look' THEN ${ofJob('later look of job', 'later_look x')}
  WHEN 'test-item' THEN ${ofJob('device or sample of job', 'test_item x')}
  WHEN 'invoice' THEN (SELECT 'invoice ' || x.number FROM invoice x WHERE x.id = a.thing_id)
  WHEN 'payment' THEN (SELECT 'payment of invoice ' || i.number FROM payment x JOIN invoice i ON i.id = x.invoice_id WHERE x.id = a.thing_id)
  WHEN 'spreadsheet' THEN (SELECT 'spreadsheet ' || x.name FROM bring_in x WHERE x.id = a.thing_id)
  WHEN 'callback' THEN (SELECT 'callback ' || x.number FROM callback x WHERE x.id = a.thing_id)
  WHEN 'corrective-action' THEN (SELECT 'corrective action ' || x.number FROM corrective_action x WHERE x.id = a.thing_id)
  WHEN 'procedure-revision' THEN (SELECT r.title || ', revision ' || x.number FROM procedure_revision x JOIN procedure r ON r.id = x.procedure_id WHERE x.id = a.thing_id)
  WHEN 'agreement-text' THEN (SELECT 'agreement text ' || x.number FROM agreement_text x WHERE x.id = a.thing_id)
  WHEN 'fee-schedule' THEN (SELECT 'fee schedule ' || x.number FROM fee_schedule x WHERE x.id = a.thing_id)
  WHEN 'kit-item' THEN (SELECT 'kit ' || x.serial FROM kit_item x WHERE x.id = a.thing_id)
  WHEN 'person' THEN (SELECT x.name FROM person x WHERE x.id = a.thing_id) END`;

/** The trail, newest first; `before` is the id after which the page begins, the thing narrows it. */
export const listAudit = (
  reader: Reader,
  q: { before: string | null; thingKind: string | null; thingId: string | null; limit: number },
): Promise<AuditLine[]> =>
  reader.rows<AuditLine>(
    `SELECT a.id::text AS id, a.recorded_at AS at, a.actor_kind AS "actorKind", p.name AS "actorName", a.operation, a.thing_kind AS "thingKind", a.thing_id::text AS "thingId", ${THING_NAME} AS "thingName", a.details, s.seal_no AS "sealNo"
     FROM audit_row a LEFT JOIN audit_seal s ON s.audit_id = a.id LEFT JOIN person p ON a.actor_kind = 'person' AND p.id = a.actor_id
     WHERE ($1::uuid IS NULL OR a.id < $1::uuid) AND ($2::text IS NULL OR a.thing_kind = $2) AND ($3::uuid IS NULL OR a.thing_id = $3::uuid) ORDER BY a.id DESC LIMIT $4::int`,
    [q.before, q.thingKind, q.thingId, q.limit],
  );
