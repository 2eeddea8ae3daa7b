// How callbacks came in, their photos, and which earlier one they belong to.
import type { CaughtBy, Danger, Way } from '@backsight/domain/callbacks/intakeWords';
import type { Kind, State } from '@backsight/domain/callbacks/words';
import type { Reader, Tx } from '../database.ts';

export type NewIntake = {
  callbackId: string;
  way: Way;
  dangers: Danger[];
  mailKey: string | null;
  textId: string | null;
  stepKey: string | null;
  caughtBy: CaughtBy | null;
  recordedAt: Date;
};

/** Constraints: callback_intake_known, callback_intake_mail, callback_intake_mail_key_key. */
export async function saveIntake(tx: Tx, intake: NewIntake): Promise<void> {
  await tx.db.callbackIntake.create({ data: intake });
}

/** Whoever logs the same mail waits until the other is done; answers the number under which it is logged already. */
export async function mailLoggedAs(tx: Tx, mailKey: string): Promise<number | null> {
  await tx.rows(`SELECT pg_advisory_xact_lock(hashtextextended('mail:' || $1, 0))::text`, [mailKey]);
  const [found] = await tx.rows<{ number: number }>(
    `SELECT c.number FROM callback_intake i JOIN callback c ON c.id = i.callback_id WHERE i.mail_key = $1`,
    [mailKey],
  );
  return found?.number ?? null;
}

export type IntakeRow = {
  way: Way;
  dangers: Danger[];
  /** Sender and subject as JSON; null when it was no mail, or erased. */
  words: string | null;
  stepKey: string | null;
  stepTitle: string | null;
  caughtBy: CaughtBy | null;
};

/** null for what was taken in before this was kept. */
export const findIntake = async (reader: Reader, callbackId: string): Promise<IntakeRow | null> =>
  (
    await reader.rows<IntakeRow>(
      `SELECT i.way, i.dangers, t.body AS words, i.step_key AS "stepKey", (SELECT s.body->>'title' FROM revision_step s JOIN procedure_revision r ON r.id = s.revision_id WHERE s.step_key = i.step_key ORDER BY r.number DESC LIMIT 1) AS "stepTitle",
         i.caught_by AS "caughtBy" FROM callback_intake i LEFT JOIN kept_text t ON t.id = i.text_id WHERE i.callback_id = $1::uuid`,
      [callbackId],
    )
  )[0] ?? null;

/** One callback as it stands in a list of links. `words` as they were said; null once erased. */
export type LinkedRow = {
  id: string;
  number: number;
  kind: Kind;
  state: State;
  system: string;
  place: string;
  words: string | null;
  receivedAt: Date;
  ownerOnly: boolean;
  jobNumber: number;
  duplicateOfId: string | null;
  repeatOfId: string | null;
};

const LINKED = `SELECT c.id::text AS id, c.number, c.kind, c.state, c.system, c.place, t.body AS words, c.received_at AS "receivedAt", c.owner_only AS "ownerOnly", j.number AS "jobNumber",
  c.duplicate_of::text AS "duplicateOfId", c.repeat_of::text AS "repeatOfId" FROM callback c JOIN job j ON j.id = c.job_id JOIN kept_text t ON t.id = c.text_id`;

/** What the callback is linked to and what is linked to it. */
export const linksOf = (reader: Reader, callbackId: string): Promise<LinkedRow[]> =>
  reader.rows<LinkedRow>(
    `${LINKED} WHERE c.duplicate_of = $1::uuid OR c.repeat_of = $1::uuid OR c.id = (SELECT coalesce(d.duplicate_of, d.repeat_of) FROM callback d WHERE d.id = $1::uuid) ORDER BY c.number`,
    [callbackId],
  );

/** Callbacks and questions of the property of a job that something new may belong to, newest first. */
export const callbacksOfProperty = (reader: Reader, jobId: string): Promise<LinkedRow[]> =>
  reader.rows<LinkedRow>(
    `${LINKED} WHERE j.property_id = (SELECT property_id FROM job WHERE id = $1::uuid) AND c.kind <> 'near_miss' AND c.duplicate_of IS NULL ORDER BY c.number DESC LIMIT 50`,
    [jobId],
  );

export const hasDuplicates = async (reader: Reader, callbackId: string): Promise<boolean> =>
  (await reader.rows(`SELECT FROM callback WHERE duplicate_of = $1::uuid LIMIT 1`, [callbackId])).length > 0;

/** What one client brought on one job, newest first. */
export const reportsOfParty = (reader: Reader, jobId: string, partyId: string): Promise<LinkedRow[]> =>
  reader.rows<LinkedRow>(
    `${LINKED} WHERE c.job_id = $1::uuid AND c.party_id = $2::uuid AND c.kind <> 'near_miss' ORDER BY c.number DESC LIMIT 50`,
    [jobId, partyId],
  );

/** Steps that were handed out on a job, by title. */
export const stepsOfJob = (reader: Reader, jobId: string): Promise<{ stepKey: string; title: string; system: string }[]> =>
  reader.rows(
    `SELECT DISTINCT ON (s.step_key) s.step_key AS "stepKey", coalesce(b.body->>'title', s.step_key) AS title, p.system FROM package_step s JOIN site_package k ON k.id = s.package_id
       JOIN site_record r ON r.id = k.record_id JOIN visit v ON v.id = r.visit_id JOIN procedure_revision n ON n.id = s.revision_id JOIN procedure p ON p.id = n.procedure_id
       LEFT JOIN revision_step b ON b.revision_id = s.revision_id AND b.step_key = s.step_key
     WHERE v.job_id = $1::uuid ORDER BY s.step_key, k.issued_at DESC`,
    [jobId],
  );
