// How often a system is looked at twice, and whether what follows from it is shown.
import { touched, type Reader, type Tx } from '../database.ts';
import { firstEntry } from '../firstEntry.ts';

export type SiteworkRules = { doubleLookOneIn: number; showAgreement: boolean; version: number };

export const siteworkRules = async (reader: Reader): Promise<SiteworkRules> =>
  (
    await reader.rows<SiteworkRules>(
      'SELECT double_look_one_in AS "doubleLookOneIn", show_agreement AS "showAgreement", version FROM sitework_rules WHERE id = 1',
    )
  )[0]!;

/** Changes them where `version` is still theirs; answers how many rows that were. */
export const changeSiteworkRules = (tx: Tx, rules: SiteworkRules): Promise<number> =>
  touched(
    tx,
    'UPDATE sitework_rules SET double_look_one_in = $1::int, show_agreement = $2::boolean, version = version + 1 WHERE id = 1 AND version = $3::int',
    rules.doubleLookOneIn,
    rules.showAgreement,
    rules.version,
  );

/** First blind answers of both members at one step, counted: those that were given before any comparison or correction. */
export type BlindPair = { system: string; quarter: string; stepKey: string; nothing: string; first: string; second: string; count: number };

/** What somebody first put down at a place (`s`), if that was an answer. */
const firstAnswer = (member: string): string =>
  firstEntry(`CASE WHEN x.outcome = 'done' THEN x.value #>> '{evidence,option}' END AS answer`, {
    record: 's.record_id',
    place: 's.step_key, s.item_id',
    person: `${member}.person_id`,
  });

/**
 * Answers by choice at places that both checked, on sealed records, by system and quarter of the visit's day at its office. `nothing` is the first
 * answer that the step offers, which stands for nothing found. Names nobody. The first that somebody put down counts, whatever it was: whoever could not
 * look, or for whom the service filled it in, may know the partner's answer when one comes after it, and is left out.
 */
export const blindPairs = (reader: Reader): Promise<BlindPair[]> =>
  reader.rows<BlindPair>(
    `WITH asked AS MATERIALIZED (
       SELECT p.system, to_char(v.starts_at AT TIME ZONE o.zone, 'YYYY "Q"Q') AS quarter, s.step_key, s.item_id, b.body #>> '{evidence,options,0,key}' AS nothing, r.id AS record_id, v.id AS visit_id
       FROM package_step s JOIN site_package k ON k.id = s.package_id JOIN site_record r ON r.id = k.record_id AND r.state = 'sealed' JOIN visit v ON v.id = r.visit_id
         JOIN job j ON j.id = v.job_id JOIN office o ON o.id = j.office_id JOIN procedure_revision n ON n.id = s.revision_id JOIN procedure p ON p.id = n.procedure_id
         JOIN revision_step b ON b.revision_id = s.revision_id AND b.step_key = s.step_key AND b.body #>> '{evidence,kind}' = 'choice'
       WHERE s.partner_check)
     SELECT s.system, s.quarter, s.step_key AS "stepKey", s.nothing, m.answer AS first, n.answer AS second, count(*)::int AS count
     FROM asked s JOIN assignment f ON f.visit_id = s.visit_id AND f.place = 'first' JOIN assignment g ON g.visit_id = s.visit_id AND g.place = 'second'
       CROSS JOIN LATERAL (${firstAnswer('f')}) m CROSS JOIN LATERAL (${firstAnswer('g')}) n
     WHERE m.answer IS NOT NULL AND n.answer IS NOT NULL GROUP BY 1, 2, 3, 4, 5, 6 ORDER BY 1, 2, 3, 5, 6`,
  );
