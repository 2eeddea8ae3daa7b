// Hours of continuing education with their certificates, who needs them, and inspections under supervision.
import { dayIn, type Reader, type Tx } from '../database.ts';

export type EducationRow = {
  id: string;
  personId: string;
  category: string;
  title: string;
  onDay: string;
  minutes: number;
  fileSha256: string | null;
  fileName: string | null;
  mediaType: string | null;
  withdrawn: boolean;
};

const ENTRY = `SELECT e.id::text AS id, e.person_id::text AS "personId", e.category, e.title, e.on_day::text AS "onDay", e.minutes, e.file_sha256 AS "fileSha256", f.name AS "fileName", f.media_type AS "mediaType",
  e.withdrawn_at IS NOT NULL AS withdrawn FROM education_entry e LEFT JOIN stored_file f ON f.sha256 = e.file_sha256`;

/** What somebody took, the newest first, without what was withdrawn. */
export const educationOf = (reader: Reader, personId: string): Promise<EducationRow[]> =>
  reader.rows<EducationRow>(`${ENTRY} WHERE e.person_id = $1::uuid AND e.withdrawn_at IS NULL ORDER BY e.on_day DESC, e.recorded_at DESC`, [
    personId,
  ]);

export const findEducation = async (reader: Reader, id: string): Promise<EducationRow | null> =>
  (await reader.rows<EducationRow>(`${ENTRY} WHERE e.id = $1::uuid`, [id]))[0] ?? null;

export type NewEducation = Pick<EducationRow, 'id' | 'personId' | 'category' | 'title' | 'onDay' | 'minutes' | 'fileSha256'>;

export async function saveEducation(tx: Tx, entry: NewEducation, by: { recordedBy: string; recordedAt: Date }): Promise<void> {
  await tx.db.educationEntry.create({ data: { ...entry, onDay: dayIn(entry.onDay), ...by } });
}

/** Withdraws an entry; answers false when it was withdrawn before. */
export const withdrawEducationRow = async (tx: Tx, id: string, at: Date): Promise<boolean> =>
  (await tx.db.educationEntry.updateMany({ where: { id, withdrawnAt: null }, data: { withdrawnAt: at } })).count === 1;

export type Learner = {
  id: string;
  name: string;
  email: string;
  trainee: boolean;
  licensed: boolean;
  pack: unknown;
  taken: { onDay: string; minutes: number }[];
};

const LICENSED = `EXISTS (SELECT FROM license l WHERE l.person_id = p.id AND $1::date BETWEEN l.from_day AND l.until_day)`;

/**
 * Everybody at work on the day who holds a license then, with what the rule pack of his office says of education, and the hours taken in so many
 * years before as it counts at most; `personId` narrows it to one, licensed or not.
 */
export const findLearners = (reader: Reader, today: string, personId: string | null): Promise<Learner[]> =>
  reader.rows<Learner>(
    `WITH pack AS MATERIALIZED (SELECT DISTINCT ON (jurisdiction) jurisdiction, body->'education' AS education, (body->'education'->>'everyYears')::int AS years FROM rule_pack ORDER BY jurisdiction, version_day DESC)
     SELECT p.id::text AS id, p.name, p.email, p.trainee, ${LICENSED} AS licensed, jsonb_build_object('education', k.education) AS pack,
       (SELECT coalesce(json_agg(json_build_object('onDay', e.on_day::text, 'minutes', e.minutes)), '[]') FROM education_entry e WHERE e.person_id = p.id AND e.withdrawn_at IS NULL
          AND e.on_day >= $1::date - make_interval(years => k.years)) AS taken
     FROM person p JOIN office o ON o.id = p.office_id LEFT JOIN pack k USING (jurisdiction)
     WHERE CASE WHEN $2::uuid IS NULL THEN (p.ended_on IS NULL OR p.ended_on > $1::date) AND ${LICENSED} ELSE p.id = $2::uuid END
     ORDER BY p.name`,
    [today, personId],
  );

/** Finished inspections at which somebody stood beside a first inspector who is no trainee, as second or as observer. */
export const countSupervised = async (reader: Reader, personId: string): Promise<number> =>
  (
    await reader.rows<{ n: number }>(
      `SELECT count(DISTINCT v.id)::int AS n FROM visit v JOIN assignment a ON a.visit_id = v.id AND a.place = 'first' AND a.person_id <> $1::uuid JOIN person f ON f.id = a.person_id AND NOT f.trainee
       WHERE v.state = 'done' AND v.kind = 'inspection' AND (EXISTS (SELECT FROM assignment s WHERE s.visit_id = v.id AND s.person_id = $1::uuid) OR EXISTS (SELECT FROM observer o WHERE o.visit_id = v.id AND o.person_id = $1::uuid))`,
      [personId],
    )
  )[0]!.n;
