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

/** The states whose rules the firm's texts are held against. */
export const firmStates = async (reader: Reader): Promise<string[]> =>
  (await reader.rows<{ states: string[] }>('SELECT states FROM firm'))[0]?.states ?? [];

export const saveFirmStates = async (tx: Tx, states: readonly string[]): Promise<void> =>
  void (await tx.db.firm.updateMany({ data: { states: [...states] } }));
