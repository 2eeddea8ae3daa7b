// The job row, its services, frozen fee lines, needs and events.
import type { FeeLine } from '@backsight/domain/fees/schedule';
import type { JobEvent, JobRow, StoredEvent } from '@backsight/domain/jobs/history';
import type { Need } from '@backsight/domain/jobs/needs';
import type { NeedKind, NeedState } from '@backsight/domain/jobs/words';
import type { Prisma } from '../generated/client.ts';
import { dayIn, execute, touched, type Reader, type Tx } from '../database.ts';

export type Job = JobRow & { id: string };
const json = (value: unknown) => value as Prisma.InputJsonValue;

const JOB = `SELECT id::text AS id, number, office_id::text AS "officeId", property_id::text AS "propertyId", kind, state, facts, schedule_id::text AS "scheduleId", rules_id::text AS "rulesId",
  parent_id::text AS "parentId", terms, objection_on::text AS "objectionOn", source, client_attends AS "clientAttends", version FROM job`;

export const findJob = async (reader: Reader, id: string): Promise<Job | null> =>
  (await reader.rows<Job>(`${JOB} WHERE id = $1::uuid`, [id]))[0] ?? null;

/** The job, locked until the transaction ends: take it after the days of its people. */
export const lockJob = async (tx: Tx, id: string): Promise<Job | null> =>
  (await tx.rows<Job>(`${JOB} WHERE id = $1::uuid FOR UPDATE`, [id]))[0] ?? null;

export async function insertJob(tx: Tx, job: Job & { recordedAt: Date }): Promise<void> {
  const { objectionOn, facts, ...row } = job;
  const arrives = job.clientAttends ? 'walk_through' : 'not_at_all';
  await tx.db.job.create({ data: { ...row, arrives, facts: json(facts), objectionOn: objectionOn === null ? null : dayIn(objectionOn) } });
}

/** Adds an event and lets the row follow it. The job must be locked or new. */
export async function addJobEvent(
  tx: Tx,
  e: JobEvent & { id: string; jobId: string; at: Date; actorId: string | null; textId?: string; state: JobRow['state'] },
): Promise<number> {
  const seq = await nextSeq(tx, e.jobId);
  await tx.db.jobEvent.create({
    data: {
      id: e.id,
      jobId: e.jobId,
      seq,
      kind: e.kind,
      state: e.state,
      details: json(e.details),
      textId: e.textId ?? null,
      happenedAt: e.at,
      recordedAt: e.at,
      actorId: e.actorId,
    },
  });
  const facts = e.kind === 'facts_learned' ? { facts: json(e.details.facts) } : {};
  await tx.db.job.update({ where: { id: e.jobId }, data: { state: e.state, version: seq, ...facts } });
  return seq;
}

async function nextSeq(tx: Tx, jobId: string): Promise<number> {
  const [row] = await tx.rows<{ seq: number }>('SELECT (coalesce(max(seq), 0) + 1)::int AS seq FROM job_event WHERE job_id = $1::uuid', [
    jobId,
  ]);
  return row!.seq;
}

export const findEvents = (reader: Reader, jobId: string): Promise<StoredEvent[]> =>
  reader.rows<StoredEvent>('SELECT seq, kind, state, details FROM job_event WHERE job_id = $1::uuid ORDER BY seq', [jobId]);

export async function saveServices(
  tx: Tx,
  jobId: string,
  services: readonly { serviceKey: string; providerId: string | null; agreedCents?: number; contractsWithUs?: boolean }[],
): Promise<void> {
  await tx.db.jobService.createMany({ data: services.map((one) => ({ ...one, jobId })) });
}

type Stamp = { newId: () => string; at: Date };

/** Freezes fee lines from `position` on. */
export async function saveFeeLines(tx: Tx, jobId: string, lines: readonly FeeLine[], { newId, at }: Stamp, position = 0): Promise<void> {
  const data = lines.map((line, n) => ({
    id: newId(),
    jobId,
    position: position + n,
    ruleKey: line.rule,
    label: line.label,
    reason: line.reason,
    assumption: line.assumption ?? null,
    cents: line.cents,
    recordedAt: at,
  }));
  await tx.db.jobFeeLine.createMany({ data });
}

/** Fee lines that count. */
export const findFeeLines = (reader: Reader, jobId: string): Promise<(FeeLine & { position: number })[]> =>
  reader.rows(
    'SELECT rule_key AS rule, label, reason, cents, position FROM job_fee_line WHERE job_id = $1::uuid AND withdrawn_at IS NULL ORDER BY position',
    [jobId],
  );

export const withdrawFeeLines = (tx: Tx, jobId: string, at: Date): Promise<void> =>
  execute(
    tx,
    'UPDATE job_fee_line SET withdrawn_at = $2::timestamptz WHERE job_id = $1::uuid AND withdrawn_at IS NULL',
    jobId,
    at.toISOString(),
  );

export async function saveNeeds(tx: Tx, jobId: string, needs: readonly Need[], { newId, at }: Stamp): Promise<void> {
  const data = needs.map(({ why, ...need }) => ({
    id: newId(),
    jobId,
    ...need,
    details: { why },
    settledAt: need.state === 'settled' ? at : null,
    recordedAt: at,
  }));
  await tx.db.jobNeed.createMany({ data, skipDuplicates: true });
}

export type NeedEdit = { state: NeedState; details: Record<string, string>; at: Date; by: string | null };

/** Notes how far a need is; answers whether the job has it, and with `open` whether it was open. `details` are added to what was noted before. */
export const updateNeed = async (tx: Tx, jobId: string, kind: NeedKind, edit: NeedEdit, only?: 'open'): Promise<boolean> =>
  (await touched(
    tx,
    `UPDATE job_need SET state = $3, details = details || $4::jsonb, asked_at = CASE WHEN $3 = 'asked' THEN $5::timestamptz ELSE asked_at END,
       settled_at = CASE WHEN $3 IN ('settled', 'refused', 'not_needed') THEN $5::timestamptz END, settled_by = CASE WHEN $3 IN ('settled', 'refused', 'not_needed') THEN $6::uuid END
     WHERE job_id = $1::uuid AND kind = $2 AND (NOT $7::boolean OR state IN ('open', 'asked'))`,
    jobId,
    kind,
    edit.state,
    JSON.stringify(edit.details),
    edit.at.toISOString(),
    edit.by,
    only === 'open',
  )) > 0;

/** Kinds of the needs that are still open or asked. */
export const findOpenNeeds = async (reader: Reader, jobId: string): Promise<NeedKind[]> =>
  (
    await reader.rows<{ kind: NeedKind }>(
      `SELECT kind FROM job_need WHERE job_id = $1::uuid AND state IN ('open', 'asked') ORDER BY kind`,
      [jobId],
    )
  ).map(({ kind }) => kind);

export async function setNeedDue(tx: Tx, jobId: string, kind: NeedKind, dueAt: Date): Promise<void> {
  await tx.db.jobNeed.updateMany({ where: { jobId, kind }, data: { dueAt } });
}

/** Lays every open need aside, or those of some kinds. */
export async function dropNeeds(tx: Tx, jobId: string, at: Date, kinds: NeedKind[] | null = null): Promise<void> {
  await tx.db.jobNeed.updateMany({
    where: { jobId, state: { in: ['open', 'asked'] }, ...(kinds === null ? {} : { kind: { in: kinds } }) },
    data: { state: 'not_needed', settledAt: at },
  });
}
