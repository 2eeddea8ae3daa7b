// What a job is for: its services, who does those that others do, and the people on it.
import type { PartyRole } from '@backsight/domain/jobs/words';
import type { Reader } from '../database.ts';

/** Who was chosen for a service that others do. */
export type JobProvider = { service: string; providerId: string };

export type Ordered = {
  /** Keys, in the order in which services are listed. */ services: string[];
  providers: JobProvider[];
  people: { partyId: string; role: PartyRole }[];
  /** A lead has said that those who were at the house for another client may not go. */ samePairRefused: boolean;
};

/** What was ordered for a job, and for whom. */
export const findOrdered = async (reader: Reader, jobId: string): Promise<Ordered> =>
  (
    await reader.rows<Ordered>(
      `SELECT coalesce((SELECT jsonb_agg(x.service_key ORDER BY s.position) FROM job_service x JOIN service s ON s.key = x.service_key WHERE x.job_id = $1::uuid), '[]') AS services,
         coalesce((SELECT jsonb_agg(jsonb_build_object('service', service_key, 'providerId', provider_id) ORDER BY service_key) FROM job_service WHERE job_id = $1::uuid AND provider_id IS NOT NULL), '[]') AS providers,
         coalesce((SELECT jsonb_agg(jsonb_build_object('partyId', party_id, 'role', role) ORDER BY id) FROM job_party WHERE job_id = $1::uuid), '[]') AS people,
         EXISTS (SELECT FROM job_need WHERE job_id = $1::uuid AND kind = 'same_pair' AND state = 'refused') AS "samePairRefused"`,
      [jobId],
    )
  )[0]!;
