// Spreadsheets from which records are brought in: their rows, files, problems, and who works at them.
import { execute, touched, type Reader, type Tx } from '../database.ts';

export type BringInState = 'to_map' | 'checking' | 'checked' | 'bringing' | 'done' | 'undoing' | 'undone' | 'thrown_away';
export type BringInRow = {
  id: string;
  kind: 'people' | 'clients' | 'properties' | 'jobs';
  name: string;
  bytes: number;
  state: BringInState;
  read: unknown;
  mapping: unknown;
  counts: unknown;
  phase: string;
  done: number;
  total: number;
  note: string | null;
  version: number;
  askedById: string;
  askedBy: string;
  recordedAt: Date;
  broughtAt: Date | null;
  endedAt: Date | null;
  /** Whether the file itself is still kept. */
  hasFile: boolean;
};

const ROW = `SELECT b.id::text AS id, b.kind, b.name, b.bytes, b.state, b.read, b.mapping, b.counts, b.phase, b.done, b.total, b.note, b.version, b.asked_by::text AS "askedById", p.name AS "askedBy",
  b.recorded_at AS "recordedAt", b.brought_at AS "broughtAt", b.ended_at AS "endedAt", EXISTS (SELECT FROM bring_in_file f WHERE f.bring_in_id = b.id) AS "hasFile"
  FROM bring_in b JOIN person p ON p.id = b.asked_by`;

export const findBringIn = async (reader: Reader, id: string): Promise<BringInRow | null> =>
  (await reader.rows<BringInRow>(`${ROW} WHERE b.id = $1::uuid`, [id]))[0] ?? null;

/** Newest first, from the one before `before` on. */
export const listBringIns = (reader: Reader, { before, limit }: { before: string | null; limit: number }): Promise<BringInRow[]> =>
  reader.rows(
    `${ROW} WHERE $1::uuid IS NULL OR (b.recorded_at, b.id) < (SELECT c.recorded_at, c.id FROM bring_in c WHERE c.id = $1::uuid) ORDER BY b.recorded_at DESC, b.id DESC LIMIT $2::int`,
    [before, limit],
  );

/** The spreadsheet, kept from changes by others until the transaction ends. */
export async function lockBringIn(tx: Tx, id: string): Promise<BringInRow | null> {
  await tx.rows('SELECT id::text AS id FROM bring_in WHERE id = $1::uuid FOR NO KEY UPDATE', [id]);
  return findBringIn(tx, id);
}

export type NewBringIn = {
  id: string;
  kind: string;
  name: string;
  bytes: Uint8Array;
  read: unknown;
  mapping: unknown;
  askedBy: string;
  at: Date;
};

export async function insertBringIn(tx: Tx, b: NewBringIn): Promise<void> {
  await execute(
    tx,
    `INSERT INTO bring_in (id, kind, name, bytes, state, read, mapping, asked_by, recorded_at) VALUES ($1::uuid, $2, $3, $4::int, 'to_map', $5::jsonb, $6::jsonb, $7::uuid, $8::timestamptz)`,
    ...[b.id, b.kind, b.name, b.bytes.length, JSON.stringify(b.read), JSON.stringify(b.mapping), b.askedBy, b.at.toISOString()],
  );
  await tx.db.bringInFile.create({ data: { bringInId: b.id, bytes: Uint8Array.from(b.bytes) } });
}

export async function findFile(reader: Reader, id: string): Promise<Uint8Array | null> {
  const [row] = await reader.rows<{ bytes: Uint8Array }>('SELECT bytes FROM bring_in_file WHERE bring_in_id = $1::uuid', [id]);
  return row?.bytes ?? null;
}

export type BringInEdit = {
  state: BringInState;
  mapping?: unknown;
  counts?: unknown;
  note?: string | null;
  broughtAt?: Date;
  endedAt?: Date;
};

/** Sets the state with what belongs to it; whoever worked at it does so no more, and the version goes up. Answers the new version. */
export async function setBringIn(tx: Tx, id: string, e: BringInEdit): Promise<number> {
  const json = (value: unknown): string | null => (value === undefined ? null : JSON.stringify(value));
  const [row] = await tx.rows<{ version: number }>(
    `UPDATE bring_in SET state = $2, mapping = coalesce($3::jsonb, mapping), counts = coalesce($4::jsonb, counts), note = $5, brought_at = coalesce($6::timestamptz, brought_at), ended_at = coalesce($7::timestamptz, ended_at),
       phase = '', done = 0, total = 0, lease_by = NULL, lease_until = NULL, version = version + 1 WHERE id = $1::uuid RETURNING version`,
    [id, e.state, json(e.mapping), json(e.counts), e.note ?? null, e.broughtAt?.toISOString() ?? null, e.endedAt?.toISOString() ?? null],
  );
  return row!.version;
}

const LEASE_SECONDS = 120;
const WORK = `('checking', 'bringing', 'undoing')`;

/** Takes the oldest spreadsheet at which nobody works, for two minutes; null when there is none. `by` is the worker's own id. */
export async function takeWork(tx: Tx, by: string, now: Date): Promise<BringInRow | null> {
  const [row] = await tx.rows<{ id: string }>(
    `UPDATE bring_in SET lease_by = $1::uuid, lease_until = $2::timestamptz + interval '${LEASE_SECONDS} seconds' WHERE id = (
       SELECT id FROM bring_in WHERE state IN ${WORK} AND (lease_until IS NULL OR lease_until < $2::timestamptz) ORDER BY recorded_at FOR NO KEY UPDATE SKIP LOCKED LIMIT 1) RETURNING id::text AS id`,
    [by, now.toISOString()],
  );
  return row ? findBringIn(tx, row.id) : null;
}

/** Whether there is anything to work at; asked often. */
export const workWaits = async (reader: Reader, now: Date): Promise<boolean> =>
  (
    await reader.rows(`SELECT 1 FROM bring_in WHERE state IN ${WORK} AND (lease_until IS NULL OR lease_until < $1::timestamptz) LIMIT 1`, [
      now.toISOString(),
    ])
  ).length > 0;

export type Progress = { phase: string; done: number; total: number };

/** Shows how far the work is and keeps it for another two minutes; answers whether it is still this worker's. */
export const noteProgress = async (tx: Tx, id: string, { by, now, ...p }: Progress & { by: string; now: Date }): Promise<boolean> =>
  (await touched(
    tx,
    `UPDATE bring_in SET phase = $3, done = $4::int, total = $5::int, lease_until = $6::timestamptz + interval '${LEASE_SECONDS} seconds' WHERE id = $1::uuid AND lease_by = $2::uuid`,
    ...[id, by, p.phase, p.done, p.total, now.toISOString()],
  )) > 0;

/** Whether the work is still this worker's; the row stays as it is until the transaction ends. */
export const stillMine = async (tx: Tx, id: string, by: string): Promise<boolean> =>
  (await tx.rows('SELECT 1 FROM bring_in WHERE id = $1::uuid AND lease_by = $2::uuid FOR NO KEY UPDATE', [id, by])).length > 0;

/** stops: the row is left out; look: it is to be looked at; known: it is on file already. */
export type Weight = 'stops' | 'look' | 'known';
export type ProblemRow = { position: number; line: number; column: string; value: string; text: string; weight: Weight };

/** Puts these problems in the place of those that were found before. */
export async function saveProblems(tx: Tx, id: string, problems: readonly Omit<ProblemRow, 'position'>[]): Promise<void> {
  await execute(tx, 'DELETE FROM bring_in_problem WHERE bring_in_id = $1::uuid', id);
  for (let at = 0; at < problems.length; at += 5_000) {
    const rows = problems.slice(at, at + 5_000).map((one, n) => ({ ...one, position: at + n }));
    await execute(
      tx,
      `INSERT INTO bring_in_problem (bring_in_id, position, line, "column", value, text, weight)
       SELECT $1::uuid, x.position, x.line, x."column", x.value, x.text, x.weight FROM jsonb_to_recordset($2::jsonb) AS x(position int, line int, "column" text, value text, text text, weight text)`,
      id,
      JSON.stringify(rows),
    );
  }
}

/** Problems in the order of their lines, after the position `after`. */
export const listProblems = (
  reader: Reader,
  q: { id: string; after: number; limit: number; weight: Weight | null },
): Promise<ProblemRow[]> =>
  reader.rows(
    `SELECT position, line, "column", value, text, weight FROM bring_in_problem WHERE bring_in_id = $1::uuid AND position > $2::int AND ($4::text IS NULL OR weight = $4) ORDER BY position LIMIT $3::int`,
    [q.id, q.after, q.limit, q.weight],
  );

const KEPT_DAYS = 7;

/** Files, problems and the rows shown as examples of what ended a week ago leave; answers how many files. */
export async function dropOldFiles(tx: Tx, now: Date): Promise<number> {
  const over = `SELECT id FROM bring_in WHERE state IN ('done', 'undone', 'thrown_away') AND coalesce(ended_at, brought_at) < $1::timestamptz - interval '${KEPT_DAYS} days'`;
  await execute(tx, `DELETE FROM bring_in_problem WHERE bring_in_id IN (${over})`, now.toISOString());
  await execute(
    tx,
    `UPDATE bring_in SET read = jsonb_set(read, '{examples}', '[]') WHERE id IN (${over}) AND read -> 'examples' <> '[]'`,
    now.toISOString(),
  );
  return touched(tx, `DELETE FROM bring_in_file WHERE bring_in_id IN (${over})`, now.toISOString());
}
