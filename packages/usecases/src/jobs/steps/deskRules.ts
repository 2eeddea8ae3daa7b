// The rules of the desk under which a job was booked; a firm that has set none charges nothing.
import { NO_RULES, type DeskRules } from '@backsight/domain/jobs/deskRules';
import type { Reader } from '@backsight/store/database';
import { findDeskRules } from '@backsight/store/jobs/catalog';

export async function deskRulesOf(reader: Reader, { rulesId }: { rulesId: string }): Promise<DeskRules> {
  return (await findDeskRules(reader, rulesId)) ?? NO_RULES;
}
