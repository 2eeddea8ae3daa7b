// How often a system is looked at twice, and whether what follows from it is shown.
import { execute, type Reader, type Tx } from '../database.ts';

export type SiteworkRules = { doubleLookOneIn: number; showAgreement: boolean; version: number };

export const siteworkRules = async (reader: Reader): Promise<SiteworkRules> =>
  (
    await reader.rows<SiteworkRules>(
      'SELECT double_look_one_in AS "doubleLookOneIn", show_agreement AS "showAgreement", version FROM sitework_rules WHERE id = 1',
    )
  )[0]!;

/** Changes them where `version` is still theirs; answers how many rows that were. */
export const changeSiteworkRules = (tx: Tx, rules: SiteworkRules): Promise<number> =>
  execute(
    tx,
    'UPDATE sitework_rules SET double_look_one_in = $1::int, show_agreement = $2::boolean, version = version + 1 WHERE id = 1 AND version = $3::int',
    rules.doubleLookOneIn,
    rules.showAgreement,
    rules.version,
  );

/** First blind answers of both members at one step, counted: those that were given before any comparison or correction. */
export type BlindPair = { system: string; quarter: string; stepKey: string; nothing: string; first: string; second: string; count: number };

/**
 * Answers by choice at places that both checked, on sealed records, by system and quarter of the visit's day at its office. `nothing` is the first
 * answer that the step offers, which stands for nothing found. Names nobody.
 */
export const blindPairs = (reader: Reader): Promise<BlindPair[]> =>
  reader.rows<BlindPair>(
    `WITH answered AS (
       SELECT p.system, to_char(v.starts_at AT TIME ZONE o.zone, 'YYYY "Q"Q') AS quarter, s.step_key, b.body #>> '{evidence,options,0,key}' AS nothing, a.place,
         s.id AS at, (SELECT e.value #>> '{evidence,option}' FROM step_entry e WHERE e.record_id = r.id AND e.step_key = s.step_key AND e.item_id IS NOT DISTINCT FROM s.item_id
           AND e.observed_by = a.person_id AND e.outcome = 'done' ORDER BY e.recorded_at, e.device_seq, e.id LIMIT 1) AS answer
       FROM package_step s JOIN site_package k ON k.id = s.package_id JOIN site_record r ON r.id = k.record_id AND r.state = 'sealed' JOIN visit v ON v.id = r.visit_id
         JOIN job j ON j.id = v.job_id JOIN office o ON o.id = j.office_id JOIN procedure_revision n ON n.id = s.revision_id JOIN procedure p ON p.id = n.procedure_id
         JOIN revision_step b ON b.revision_id = s.revision_id AND b.step_key = s.step_key AND b.body #>> '{evidence,kind}' = 'choice'
         JOIN assignment a ON a.visit_id = v.id
       WHERE s.partner_check)
     SELECT f.system, f.quarter, f.step_key AS "stepKey", f.nothing, f.answer AS first, g.answer AS second, count(*)::int AS count
     FROM answered f JOIN answered g ON g.at = f.at AND f.place = 'first' AND g.place = 'second' AND f.answer IS NOT NULL AND g.answer IS NOT NULL
     GROUP BY 1, 2, 3, 4, 5, 6 ORDER BY 1, 2, 3, 5, 6`,
  );
