// Usual hours, absences and days with other hours of people, and the booked visits that a change of them hits.
import type { AbsenceState } from '@backsight/domain/people/absences';
import { dayIn, execute, type Reader, type Tx } from '../database.ts';

export type PatternRow = { weekday: number; startMinute: number; endMinute: number; fromDay: string; untilDay: string | null };

/** Usual hours, the newest set first; `untilDay` is the first day on which they no longer count. */
export const patternsOf = (reader: Reader, personId: string): Promise<PatternRow[]> =>
  reader.rows<PatternRow>(
    `SELECT weekday, start_minute AS "startMinute", end_minute AS "endMinute", from_day::text AS "fromDay", until_day::text AS "untilDay" FROM work_pattern WHERE person_id = $1::uuid ORDER BY from_day DESC, weekday, start_minute`,
    [personId],
  );

/** Ends what counts on `fromDay` and forgets what would have begun later: it never came to count. */
export async function endPatterns(tx: Tx, personId: string, fromDay: string): Promise<void> {
  await execute(tx, 'DELETE FROM work_pattern WHERE person_id = $1::uuid AND from_day >= $2::date', personId, fromDay);
  await execute(
    tx,
    'UPDATE work_pattern SET until_day = $2::date WHERE person_id = $1::uuid AND (until_day IS NULL OR until_day > $2::date)',
    personId,
    fromDay,
  );
}

/** Adds usual hours from a day on, without end. Constraint: work_pattern_once_at_a_time. */
export async function savePattern(
  tx: Tx,
  personId: string,
  fromDay: string,
  spans: readonly { id: string; weekday: number; startMinute: number; endMinute: number }[],
): Promise<void> {
  await tx.db.workPattern.createMany({ data: spans.map((span) => ({ ...span, personId, fromDay: dayIn(fromDay) })) });
}

export type AbsenceRow = {
  id: string;
  personId: string;
  startsAt: Date;
  endsAt: Date;
  reason: string;
  withdrawnAt: Date | null;
  state: AbsenceState;
  decision: string | null;
};
const ABSENCE = `SELECT id::text AS id, person_id::text AS "personId", starts_at AS "startsAt", ends_at AS "endsAt", reason, withdrawn_at AS "withdrawnAt", state, decision FROM absence`;

/** Absences that end after `since`, in order, without those withdrawn. */
export const absencesOf = (reader: Reader, personId: string, since: Date): Promise<AbsenceRow[]> =>
  reader.rows<AbsenceRow>(
    `${ABSENCE} WHERE person_id = $1::uuid AND ends_at > $2::timestamptz AND withdrawn_at IS NULL ORDER BY starts_at`,
    [personId, since.toISOString()],
  );

export const findAbsence = async (reader: Reader, id: string): Promise<AbsenceRow | null> =>
  (await reader.rows<AbsenceRow>(`${ABSENCE} WHERE id = $1::uuid`, [id]))[0] ?? null;

export async function saveAbsence(
  tx: Tx,
  absence: { id: string; personId: string; startsAt: Date; endsAt: Date; reason: string; state: AbsenceState; recordedAt: Date },
): Promise<void> {
  await tx.db.absence.create({ data: absence });
}

/** Decides about an asked absence; answers false when it is no longer asked. */
export const decideAbsenceRow = async (
  tx: Tx,
  id: string,
  decided: { state: AbsenceState; decision: string; decidedBy: string; decidedAt: Date },
): Promise<boolean> => (await tx.db.absence.updateMany({ where: { id, state: 'asked', withdrawnAt: null }, data: decided })).count === 1;

/** Withdraws an absence; answers false when it was withdrawn before. */
export const withdrawAbsenceRow = async (tx: Tx, id: string, at: Date): Promise<boolean> =>
  (await tx.db.absence.updateMany({ where: { id, withdrawnAt: null }, data: { withdrawnAt: at } })).count === 1;

/** A day with other hours than usual; without minutes a day off. */
export type ExceptionRow = {
  id: string;
  personId: string;
  day: string;
  startMinute: number | null;
  endMinute: number | null;
  note: string;
  withdrawn: boolean;
};
const EXCEPTION = `SELECT id::text AS id, person_id::text AS "personId", day::text AS day, start_minute AS "startMinute", end_minute AS "endMinute", note, withdrawn_at IS NOT NULL AS withdrawn FROM work_exception`;

/** Days with other hours from a day on, in order, without those withdrawn. */
export const exceptionsOf = (reader: Reader, personId: string, since: string): Promise<ExceptionRow[]> =>
  reader.rows<ExceptionRow>(`${EXCEPTION} WHERE person_id = $1::uuid AND day >= $2::date AND withdrawn_at IS NULL ORDER BY day`, [
    personId,
    since,
  ]);

export const findException = async (reader: Reader, id: string): Promise<ExceptionRow | null> =>
  (await reader.rows<ExceptionRow>(`${EXCEPTION} WHERE id = $1::uuid`, [id]))[0] ?? null;

/** Adds a day with other hours. Constraint: work_exception_once_a_day. */
export async function saveException(tx: Tx, { withdrawn: _, ...one }: ExceptionRow, recordedAt: Date): Promise<void> {
  await tx.db.workException.create({ data: { ...one, day: dayIn(one.day), recordedAt } });
}

export const withdrawExceptionRow = async (tx: Tx, id: string, at: Date): Promise<boolean> =>
  (await tx.db.workException.updateMany({ where: { id, withdrawnAt: null }, data: { withdrawnAt: at } })).count === 1;

export type VisitOfPerson = { visitId: string; jobNumber: number; address: string; startsAt: Date; endsAt: Date };

/** Live visits of a person that overlap the span, in order. A hold that has run out is none. */
export const visitsOfPerson = (reader: Reader, personId: string, from: Date, to: Date, now: Date): Promise<VisitOfPerson[]> =>
  reader.rows<VisitOfPerson>(
    `SELECT v.id::text AS "visitId", j.number AS "jobNumber", p.address || ', ' || p.town AS address, v.starts_at AS "startsAt", v.ends_at AS "endsAt"
     FROM assignment a JOIN visit v ON v.id = a.visit_id JOIN job j ON j.id = v.job_id JOIN property p ON p.id = j.property_id
     WHERE a.person_id = $1::uuid AND a.live AND a.starts_at < $3::timestamptz AND a.ends_at > $2::timestamptz AND v.state <> 'done' AND (v.state <> 'held' OR v.hold_ends_at > $4::timestamptz) ORDER BY v.starts_at LIMIT 200`,
    [personId, from.toISOString(), to.toISOString(), now.toISOString()],
  );
