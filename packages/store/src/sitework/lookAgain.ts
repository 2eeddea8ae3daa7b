// What a callback visit is to look at again: the systems of its callback and of the step at issue, and the things named at the inspection.
import type { ItemKind } from '@backsight/domain/shared/facts';
import type { Reader } from '../database.ts';

/** Empty for jobs that no remedy brought. */
export async function lookAgainOf(
  reader: Reader,
  jobId: string,
): Promise<{ systems: string[]; items: { kind: ItemKind; label: string }[] }> {
  const [row] = await reader.rows<{ systems: string[]; items: { kind: ItemKind; label: string }[] }>(
    `SELECT coalesce((SELECT array_agg(DISTINCT s.system) FROM (
         SELECT c.system FROM remedy_visit x JOIN remedy r ON r.id = x.remedy_id JOIN callback c ON c.id = r.callback_id WHERE x.job_id = j.id
         UNION SELECT p.system FROM remedy_visit x JOIN remedy r ON r.id = x.remedy_id JOIN conclusion k ON k.callback_id = r.callback_id JOIN procedure_revision v ON v.id = k.revision_id
           JOIN procedure p ON p.id = v.procedure_id WHERE x.job_id = j.id) s), '{}') AS systems,
       coalesce((SELECT jsonb_agg(DISTINCT jsonb_build_object('kind', i.kind, 'label', i.label)) FROM visit v JOIN site_record d ON d.visit_id = v.id JOIN record_item i ON i.record_id = d.id
         WHERE v.job_id = j.parent_id), '[]'::jsonb) AS items
     FROM job j WHERE j.id = $1::uuid AND j.kind = 'callback_visit'`,
    [jobId],
  );
  return row ?? { systems: [], items: [] };
}
