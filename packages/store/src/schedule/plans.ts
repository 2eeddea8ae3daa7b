// Plans that were asked for, and the people to be called because of them.
import type { PlanAnswer, PlanKind, PlanState } from '@backsight/domain/schedule/plans';
import type { Prisma } from '../generated/client.ts';
import { dayIn, execute, type Reader, type Tx } from '../database.ts';

export type PlanRow = {
  id: string;
  kind: PlanKind;
  fromDay: string;
  toDay: string;
  ask: unknown;
  state: PlanState;
  note: string | null;
  fingerprint: string | null;
  accepted: string[];
  askedById: string;
  askedBy: string;
  askedAt: Date;
  endedAt: Date | null;
};

const PLAN = `SELECT p.id::text AS id, p.kind, p.from_day::text AS "fromDay", p.to_day::text AS "toDay", p.ask, p.state, p.note, p.fingerprint, coalesce(p.accepted, '{}') AS accepted,
  p.asked_by::text AS "askedById", w.name AS "askedBy", p.asked_at AS "askedAt", p.ended_at AS "endedAt" FROM plan p JOIN person w ON w.id = p.asked_by`;

export const findPlan = async (reader: Reader, id: string): Promise<PlanRow | null> =>
  (await reader.rows<PlanRow>(`${PLAN} WHERE p.id = $1::uuid`, [id]))[0] ?? null;

/** The newest plans of some kinds. */
export const listPlans = (reader: Reader, kinds: readonly PlanKind[], limit: number): Promise<PlanRow[]> =>
  reader.rows<PlanRow>(`${PLAN} WHERE p.kind = ANY($1::text[]) ORDER BY p.asked_at DESC, p.id DESC LIMIT $2`, [kinds, limit]);

/** What came out; null while there is nothing. The shape goes by the kind of plan. */
export const findPlanResult = async <T = PlanAnswer>(reader: Reader, id: string): Promise<T | null> =>
  (await reader.rows<{ result: T | null }>('SELECT result FROM plan WHERE id = $1::uuid', [id]))[0]?.result ?? null;

/** The plan, kept from changes by others until the transaction ends. */
export async function lockPlan(tx: Tx, id: string): Promise<PlanRow | null> {
  await tx.rows('SELECT id::text AS id FROM plan WHERE id = $1::uuid FOR UPDATE', [id]);
  return findPlan(tx, id);
}

export async function insertPlan(
  tx: Tx,
  p: { id: string; kind: PlanKind; fromDay: string; toDay: string; ask: unknown; askedBy: string; askedAt: Date },
): Promise<void> {
  const data = { ...p, fromDay: dayIn(p.fromDay), toDay: dayIn(p.toDay), ask: p.ask as Prisma.InputJsonValue, state: 'asked' };
  await tx.db.plan.create({ data });
}

export type PlanEnd = { state: Exclude<PlanState, 'asked'>; note: string | null; at: Date; fingerprint?: string; result?: unknown };

/** Ends a plan that is still being made; answers whether it was. */
export async function endPlan(tx: Tx, id: string, { at, result, ...end }: PlanEnd): Promise<boolean> {
  const data = { ...end, endedAt: at, ...(result === undefined ? {} : { result: result as Prisma.InputJsonValue }) };
  return (await tx.db.plan.updateMany({ where: { id, state: 'asked' }, data })).count > 0;
}

/** Plans without an end that were asked for until then. */
export const unfinishedPlans = async (reader: Reader, until: Date): Promise<string[]> =>
  (
    await reader.rows<{ id: string }>(
      `SELECT id::text AS id FROM plan WHERE state = 'asked' AND asked_at <= $1::timestamptz ORDER BY asked_at`,
      [until.toISOString()],
    )
  ).map(({ id }) => id);

export async function addAccepted(tx: Tx, id: string, keys: readonly string[]): Promise<void> {
  await execute(tx, `UPDATE plan SET accepted = coalesce(accepted, '{}') || $2::text[] WHERE id = $1::uuid`, id, keys);
}

export type NewCall = {
  id: string;
  planId: string;
  visitId: string;
  position: number;
  because: 'left_out' | 'moved' | 'crew';
  wasAt: Date;
  willBeAt: Date | null;
  recordedAt: Date;
};

export async function insertCalls(tx: Tx, calls: readonly NewCall[]): Promise<void> {
  await tx.db.planCall.createMany({ data: [...calls], skipDuplicates: true });
}

export type CallRow = {
  id: string;
  planId: string;
  visitId: string;
  jobId: string;
  jobNumber: number;
  because: NewCall['because'];
  wasAt: Date;
  willBeAt: Date | null;
  doneAt: Date | null;
  address: string;
  town: string;
  objectionOn: string | null;
  clients: { name: string; phone: string | null }[];
};

/** Whom to call because of a plan, in order. */
export const callsOf = (reader: Reader, planId: string): Promise<CallRow[]> =>
  reader.rows<CallRow>(
    `SELECT c.id::text AS id, c.plan_id::text AS "planId", c.visit_id::text AS "visitId", j.id::text AS "jobId", j.number AS "jobNumber", c.because, c.was_at AS "wasAt", c.will_be_at AS "willBeAt", c.done_at AS "doneAt",
      p.address, p.town, j.objection_on::text AS "objectionOn",
      (SELECT coalesce(json_agg(json_build_object('name', y.name, 'phone', y.phone) ORDER BY y.name), '[]') FROM job_party z JOIN party y ON y.id = z.party_id WHERE z.job_id = j.id AND z.role = 'client') AS clients
     FROM plan_call c JOIN visit v ON v.id = c.visit_id JOIN job j ON j.id = v.job_id JOIN property p ON p.id = j.property_id WHERE c.plan_id = $1::uuid ORDER BY c.position, c.id`,
    [planId],
  );

/** Ticks a call off or on again; answers the visit and plan, null when there is no such call. */
export async function setCallDone(
  tx: Tx,
  id: string,
  done: { at: Date; by: string } | null,
): Promise<{ visitId: string; planId: string } | null> {
  const [row] = await tx.rows<{ visitId: string; planId: string }>(
    `UPDATE plan_call SET done_at = $2::timestamptz, done_by = $3::uuid WHERE id = $1::uuid RETURNING visit_id::text AS "visitId", plan_id::text AS "planId"`,
    [id, done?.at.toISOString() ?? null, done?.by ?? null],
  );
  return row ?? null;
}
