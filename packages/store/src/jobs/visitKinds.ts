// Kinds of visits besides the inspection, whose minutes the booking rules count.
import type { Reader, Tx } from '../database.ts';

export type VisitKindLine = { key: string; name: string; crewSize: number; minutes: number; reportMinutes: number; version: number };

export const listVisitKinds = (reader: Reader): Promise<VisitKindLine[]> =>
  reader.rows<VisitKindLine>(
    `SELECT key, name, crew_size AS "crewSize", minutes, report_minutes AS "reportMinutes", version FROM visit_kind WHERE key <> 'inspection' ORDER BY name`,
  );

/** As it reads inside a sentence: 'radon pick-up'. */
export const visitWords = async (reader: Reader, key: string): Promise<string> =>
  (await reader.rows<{ words: string }>('SELECT lower(name) AS words FROM visit_kind WHERE key = $1', [key]))[0]!.words;

/** Answers false when somebody else changed it meanwhile, or there is none. Constraint: visit_kind_minutes. */
export async function setVisitKind(
  tx: Tx,
  key: string,
  version: number,
  minutes: { minutes: number; reportMinutes: number },
): Promise<boolean> {
  const where = { key, version, NOT: { key: 'inspection' } };
  return (await tx.db.visitKind.updateMany({ where, data: { ...minutes, version: version + 1 } })).count === 1;
}
