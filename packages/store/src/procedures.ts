// Which revisions are in force, and who has not yet said that they will work by them.
import type { Step } from '@backsight/domain/procedures/step';
import type { Reader } from './database.ts';

export type InForceRow = {
  procedureId: string;
  procedureKey: string;
  title: string;
  system: string;
  revisionId: string;
  number: number;
  inForceFrom: Date;
  acknowledgeBy: Date;
  steps: Step[];
};

/** The revision in force of every procedure at an instant, in the order of the book. A procedure that has none then is left out. */
export const findInForce = (reader: Reader, at: Date): Promise<InForceRow[]> =>
  reader.rows<InForceRow>(
    `SELECT p.id::text AS "procedureId", p.key AS "procedureKey", p.title, p.system, r.id::text AS "revisionId", r.number,
       f.from_at AS "inForceFrom", r.acknowledge_by AS "acknowledgeBy",
       coalesce((SELECT jsonb_agg(s.body ORDER BY s.position) FROM revision_step s WHERE s.revision_id = r.id), '[]'::jsonb) AS steps
     FROM in_force_period f JOIN procedure_revision r ON r.id = f.revision_id JOIN procedure p ON p.id = f.procedure_id
     WHERE f.from_at <= $1::timestamptz AND (f.until_at IS NULL OR f.until_at > $1::timestamptz) ORDER BY p.position, p.key`,
    [at.toISOString()],
  );

export type MissingAcknowledgement = { personId: string; revisionId: string; procedureTitle: string; number: number; acknowledgeBy: Date };

/**
 * Inspectors of the firm at an instant who have not acknowledged a revision that is in force then. Compare `acknowledgeBy` with the
 * instant to tell grace from lateness. The book that came with the set-up changed nothing, so nobody is asked to acknowledge that.
 */
export const missingAcknowledgements = (reader: Reader, at: Date): Promise<MissingAcknowledgement[]> =>
  reader.rows<MissingAcknowledgement>(
    `SELECT w.id::text AS "personId", r.id::text AS "revisionId", p.title AS "procedureTitle", r.number, r.acknowledge_by AS "acknowledgeBy"
     FROM in_force_period f JOIN procedure_revision r ON r.id = f.revision_id AND r.asks JOIN procedure p ON p.id = f.procedure_id
       JOIN person w ON (w.ended_on IS NULL OR w.ended_on > $1::timestamptz::date)
       JOIN person_role g ON g.person_id = w.id AND g.role = 'inspector'
       LEFT JOIN acknowledgement a ON a.revision_id = r.id AND a.person_id = w.id
     WHERE f.from_at <= $1::timestamptz AND (f.until_at IS NULL OR f.until_at > $1::timestamptz) AND a.person_id IS NULL
     ORDER BY r.acknowledge_by, p.position, w.name COLLATE "en-x-icu"`,
    [at.toISOString()],
  );
