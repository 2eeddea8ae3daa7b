// Later looks that were offered, declined or booked.
import type { OfferedLook } from '@backsight/domain/jobs/laterLooks';
import { dayIn, type Reader, type Tx } from '../database.ts';

export type LookState = 'offered' | 'declined' | 'booked';
export type LookRow = Omit<OfferedLook, 'key'> & { id: string; jobId: string; key: string; state: LookState; visitId: string | null };

export async function saveLooks(
  tx: Tx,
  jobId: string,
  looks: readonly OfferedLook[],
  stamp: { newId: () => string; at: Date },
): Promise<void> {
  const data = looks.map(({ key, remindOn, ...look }) => ({
    ...look,
    id: stamp.newId(),
    jobId,
    ruleKey: key,
    remindOn: dayIn(remindOn),
    state: 'offered',
    recordedAt: stamp.at,
  }));
  if (data.length > 0) await tx.db.laterLook.createMany({ data, skipDuplicates: true });
}

const LOOK = `SELECT id::text AS id, job_id::text AS "jobId", rule_key AS key, label, reason, visit_kind AS "visitKind", cents, remind_on::text AS "remindOn", state, visit_id::text AS "visitId" FROM later_look`;

export const looksOfJob = (reader: Reader, jobId: string): Promise<LookRow[]> =>
  reader.rows<LookRow>(`${LOOK} WHERE job_id = $1::uuid ORDER BY remind_on, rule_key`, [jobId]);

export const lockLook = async (tx: Tx, id: string): Promise<LookRow | null> =>
  (await tx.rows<LookRow>(`${LOOK} WHERE id = $1::uuid FOR UPDATE`, [id]))[0] ?? null;

export async function setLook(tx: Tx, id: string, state: LookState, visitId: string | null): Promise<void> {
  await tx.db.laterLook.update({ where: { id }, data: { state, visitId } });
}
