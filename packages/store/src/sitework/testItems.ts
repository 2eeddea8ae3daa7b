// Devices and samples by serial number, and what happened to each.
import type { TestItemFacts, TestKind, TestStep } from '@backsight/domain/sitework/testItems';
import type { Reader, Tx } from '../database.ts';

export type TestStepRow = { step: TestStep; happenedAt: Date; by: string; details: Record<string, unknown>; words: string | null };
export type TestItemRow = Omit<TestItemFacts, 'steps'> & {
  id: string;
  jobId: string;
  serial: string;
  what: string;
  awaited: boolean;
  steps: TestStepRow[];
};

const ITEM = `SELECT t.id::text AS id, t.job_id::text AS "jobId", t.kind, t.serial, t.what, t.test_from AS "testFrom", t.shortest_hours AS "shortestHours", t.holding_hours AS "holdingHours", t.awaited,
    coalesce((SELECT jsonb_agg(jsonb_build_object('step', s.step, 'happenedAt', s.happened_at, 'by', p.name, 'details', s.details, 'words', k.body) ORDER BY s.happened_at, s.recorded_at)
      FROM test_step s JOIN person p ON p.id = s.recorded_by LEFT JOIN kept_text k ON k.id = s.text_id WHERE s.item_id = t.id), '[]'::jsonb) AS steps FROM test_item t`;

const withDates = (row: TestItemRow): TestItemRow => ({
  ...row,
  steps: row.steps.map((s) => ({ ...s, happenedAt: new Date(s.happenedAt) })),
});

export const testItemsOfJob = async (reader: Reader, jobId: string): Promise<TestItemRow[]> =>
  (await reader.rows<TestItemRow>(`${ITEM} WHERE t.job_id = $1::uuid ORDER BY t.recorded_at, t.id`, [jobId])).map(withDates);

export const lockTestItem = async (tx: Tx, id: string): Promise<TestItemRow | null> => {
  await tx.rows('SELECT 1 AS one FROM test_item WHERE id = $1::uuid FOR UPDATE', [id]);
  const [row] = await tx.rows<TestItemRow>(`${ITEM} WHERE t.id = $1::uuid`, [id]);
  return row ? withDates(row) : null;
};

export type NewTestItem = {
  id: string;
  jobId: string;
  kind: TestKind;
  serial: string;
  what: string;
  testFrom: Date | null;
  shortestHours: number;
  holdingHours: number | null;
  recordedAt: Date;
};

/** Rule: device_out_elsewhere. */
export async function addTestItem(tx: Tx, item: NewTestItem): Promise<void> {
  await tx.db.testItem.create({ data: item });
}

export type NewTestStep = {
  itemId: string;
  step: TestStep;
  details: Record<string, string | boolean | null>;
  textId: string | null;
  happenedAt: Date;
  recordedAt: Date;
  recordedBy: string;
};

/** Adds a step; after the last one nothing is awaited any more. Rules: test_step_order, test_too_short. */
export async function addTestStep(tx: Tx, step: NewTestStep): Promise<void> {
  await tx.db.testStep.create({ data: step });
  if (step.step === 'told' || step.step === 'given_up')
    await tx.db.testItem.update({ where: { id: step.itemId }, data: { awaited: false } });
}

/** Serial numbers and kinds of what is still awaited of a job. */
export const awaitedOfJob = (reader: Reader, jobId: string): Promise<{ serial: string; what: string }[]> =>
  reader.rows('SELECT serial, what FROM test_item WHERE job_id = $1::uuid AND awaited ORDER BY recorded_at, id', [jobId]);

export type LaterVisitRow = { kind: string; name: string; from: Date | null; booked: boolean };

/** Visits that the job's services bring besides the inspection, from when each may begin, and whether it is booked or done. */
export const laterVisitsOf = (reader: Reader, jobId: string): Promise<LaterVisitRow[]> =>
  reader.rows<LaterVisitRow>(
    `SELECT DISTINCT k.key AS kind, k.name, (SELECT max(i.ends_at) FROM visit i WHERE i.job_id = $1::uuid AND i.kind = 'inspection' AND i.live) + k.after_hours * interval '1 hour' AS "from",
       EXISTS (SELECT FROM visit v WHERE v.job_id = $1::uuid AND v.kind = k.key AND v.live AND v.state <> 'ended') AS booked
     FROM job_service js JOIN service s ON s.key = js.service_key JOIN visit_kind k ON k.key = s.extra_visit WHERE js.job_id = $1::uuid ORDER BY k.key`,
    [jobId],
  );

/** From when a visit of this kind may begin for a job; null where any time will do. */
export const earliestOf = async (reader: Reader, jobId: string, kind: string): Promise<Date | null> =>
  (
    await reader.rows<{ at: Date | null }>(
      `SELECT (SELECT max(i.ends_at) FROM visit i WHERE i.job_id = $1::uuid AND i.kind = 'inspection' AND i.live) + k.after_hours * interval '1 hour' AS at FROM visit_kind k WHERE k.key = $2 AND k.after_hours > 0`,
      [jobId, kind],
    )
  )[0]?.at ?? null;

/** The booked pick-up of a job on a day, that one person does. */
export const pickupToday = async (reader: Reader, jobId: string, personId: string, at: Date): Promise<string | null> =>
  (
    await reader.rows<{ id: string }>(
      `SELECT v.id::text AS id FROM visit v JOIN visit_kind k ON k.key = v.kind AND k.after_hours > 0 JOIN assignment a ON a.visit_id = v.id AND a.person_id = $2::uuid
       WHERE v.job_id = $1::uuid AND v.state = 'booked' AND v.starts_at BETWEEN $3::timestamptz - interval '12 hours' AND $3::timestamptz + interval '12 hours' ORDER BY v.starts_at LIMIT 1`,
      [jobId, personId, at.toISOString()],
    )
  )[0]?.id ?? null;
