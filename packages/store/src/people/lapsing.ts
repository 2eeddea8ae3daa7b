// What lapses and was not renewed: licenses, qualifications, calibrations, checks of kit, policies, papers of outside providers; and what was told of it.
import { dayIn, type Reader, type Tx } from '../database.ts';

export type LapsingRow = {
  kind: 'license' | 'qualification' | 'kit' | 'kit_check' | 'policy' | 'education' | 'provider';
  id: string;
  personId: string | null;
  who: string;
  what: string;
  on: string;
};

/** Checks of kit that are done often are no news until a quarter of their time is left; what was never checked shows beside its piece only. */
const CHECKS = `SELECT 'kit_check', i.id::text, NULL, k.name, CASE n.check_kind WHEN 'bump_test' THEN 'gas-sensor bump test' WHEN 'ladder' THEN 'ladder check' ELSE n.check_kind END || ' of ' || i.serial,
       c.done + n.every_days
     FROM kit_item i JOIN kit_kind k ON k.key = i.kind JOIN kit_check_need n ON n.kind = i.kind CROSS JOIN LATERAL (SELECT max(c.on_day) AS done FROM kit_check c WHERE c.item_id = i.id AND c.check_kind = n.check_kind AND c.passed) c
     WHERE i.ended_on IS NULL AND c.done + n.every_days <= $3::date + n.every_days / 4`;

/** What lapses in the days [from, to] and has no follower that already covers the day after, soonest first; overdue checks of kit always. */
export const listLapsing = (reader: Reader, q: { from: string; to: string; today: string }): Promise<LapsingRow[]> =>
  reader.rows<LapsingRow>(
    `SELECT kind, id, "personId", who, what, "on"::text AS "on" FROM (
       SELECT 'license' AS kind, l.id::text AS id, p.id::text AS "personId", p.name AS who, replace(l.kind, '_', ' ') || ' license ' || l.number AS what, l.until_day AS "on"
         FROM license l JOIN person p ON p.id = l.person_id
         WHERE (p.ended_on IS NULL OR p.ended_on > l.until_day) AND NOT EXISTS (SELECT FROM license n WHERE n.person_id = l.person_id AND n.kind = l.kind AND n.from_day <= l.until_day + 1 AND n.until_day > l.until_day)
       UNION ALL
       SELECT 'qualification', q.id::text, p.id::text, p.name, k.name, q.until_day
         FROM person_qualification q JOIN person p ON p.id = q.person_id JOIN qualification_kind k ON k.key = q.kind
         WHERE (p.ended_on IS NULL OR p.ended_on > q.until_day)
           AND NOT EXISTS (SELECT FROM person_qualification n WHERE n.person_id = q.person_id AND n.kind = q.kind AND n.from_day <= q.until_day + 1 AND (n.until_day IS NULL OR n.until_day > q.until_day))
       UNION ALL
       SELECT 'kit', i.id::text, NULL, k.name, 'calibration of ' || i.serial, i.calibrated_until FROM kit_item i JOIN kit_kind k ON k.key = i.kind WHERE i.ended_on IS NULL
       UNION ALL
       ${CHECKS}
       UNION ALL
       SELECT 'policy', i.id::text, NULL, i.insurer, i.kind || ' liability policy ' || i.number, i.ends_on FROM insurance_policy i
         WHERE NOT EXISTS (SELECT FROM insurance_policy n WHERE n.kind = i.kind AND n.starts_on <= i.ends_on AND n.ends_on > i.ends_on)
       UNION ALL
       SELECT 'provider', p.id::text, NULL, p.name, x.what, x.until FROM provider p CROSS JOIN LATERAL (VALUES ('license of the outside provider', p.license_until), ('insurance certificate of the outside provider', p.insurance_until)) x (what, until)
         WHERE x.until IS NOT NULL AND (p.ended_on IS NULL OR p.ended_on > x.until)
     ) lapsing WHERE "on" <= $2::date AND ("on" >= $1::date OR kind = 'kit_check') ORDER BY lapsing."on", who, what`,
    [q.from, q.to, q.today],
  );

export type Notice = { kind: string; thingId: string; onDay: string; stage: number };

/** Which of these were told before. */
export const noticesBefore = (reader: Reader, notices: readonly Notice[]): Promise<Notice[]> =>
  reader.rows<Notice>(
    `SELECT n.kind, n.thing_id::text AS "thingId", n.on_day::text AS "onDay", n.stage FROM lapse_notice n
     JOIN unnest($1::text[], $2::uuid[], $3::date[], $4::int[]) AS t(kind, thing_id, on_day, stage) ON (n.kind, n.thing_id, n.on_day, n.stage) = (t.kind, t.thing_id, t.on_day, t.stage)`,
    [
      notices.map(({ kind }) => kind),
      notices.map(({ thingId }) => thingId),
      notices.map(({ onDay }) => onDay),
      notices.map(({ stage }) => stage),
    ],
  );

/** Writes down that these are told. */
export async function saveNotices(tx: Tx, notices: readonly Notice[], recordedAt: Date): Promise<void> {
  await tx.db.lapseNotice.createMany({ data: notices.map((notice) => ({ ...notice, onDay: dayIn(notice.onDay), recordedAt })) });
}
