// Where an agreement text goes against the rules of the states that the firm has taken up.
import { DateTime } from 'luxon';
import { textBreaks, type RuleBreak } from '@backsight/domain/agreements/textRules';
import type { TextContent, TextKind } from '@backsight/domain/agreements/text';
import { packOn, rowsOn } from '@backsight/domain/shared/rulePack';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { firmStates, listRulePacks } from '@backsight/store/firm/rulePacks';

export type BreakFound = RuleBreak & { packId: string; jurisdiction: string; state: string };

/** By the packs of the day on which `at` falls where the firm is. What the rules ask of agreements they do not ask of a settlement release. */
export async function textBreaksOn(reader: Reader, text: TextContent & { kind?: TextKind }, at: Date): Promise<BreakFound[]> {
  if (text.kind === 'settlement_release') return [];
  const day = DateTime.fromJSDate(at, { zone: (await findFirm(reader))?.zone ?? 'UTC' }).toISODate()!;
  const packs = await listRulePacks(reader);
  return (await firmStates(reader)).flatMap((jurisdiction) => {
    const pack = packOn(packs, jurisdiction, day);
    if (!pack) return [];
    return textBreaks(text, rowsOn(pack.rows, day)).map((found) => ({ ...found, packId: pack.id, jurisdiction, state: pack.name }));
  });
}
