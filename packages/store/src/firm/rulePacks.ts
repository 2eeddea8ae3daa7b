// Rule packs of states with their versions, and the states whose rules the firm has taken up.
import { readPack } from '@backsight/domain/firm/stored';
import type { RulePack } from '@backsight/domain/shared/rulePack';
import type { Reader, Tx } from '../database.ts';

type PackRow = { id: string; jurisdiction: string; versionDay: string; body: unknown };

/** Every version of every state, the newest first. */
export const listRulePacks = async (reader: Reader): Promise<RulePack[]> =>
  (
    await reader.rows<PackRow>(
      `SELECT id::text AS id, jurisdiction, version_day::text AS "versionDay", body FROM rule_pack ORDER BY jurisdiction, version_day DESC`,
    )
  ).map(({ body, ...row }) => ({ ...row, ...readPack(body) }));

/** The version of one state on a day; before the first one the first counts, for nothing earlier was read (as `packOn` has it). */
export async function findRulePack(reader: Reader, jurisdiction: string, day: string): Promise<RulePack | null> {
  const [row] = await reader.rows<PackRow>(
    `SELECT id::text AS id, jurisdiction, version_day::text AS "versionDay", body FROM rule_pack WHERE jurisdiction = $1
     ORDER BY version_day > $2::date, CASE WHEN version_day <= $2::date THEN version_day END DESC, version_day LIMIT 1`,
    [jurisdiction, day],
  );
  if (!row) return null;
  const { body, ...of } = row;
  return { ...of, ...readPack(body) };
}

/** The states whose rules the firm's texts are held against. */
export const firmStates = async (reader: Reader): Promise<string[]> =>
  (await reader.rows<{ states: string[] }>('SELECT states FROM firm'))[0]?.states ?? [];

export const saveFirmStates = async (tx: Tx, states: readonly string[]): Promise<void> =>
  void (await tx.db.firm.updateMany({ data: { states: [...states] } }));
