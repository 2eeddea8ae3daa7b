// The row on repairs of the state in which the property of a callback lies.
import { repairRule, type RepairRule } from '@backsight/domain/callbacks/ownRepair';
import { rowsOn } from '@backsight/domain/shared/rulePack';
import type { JobForCallback } from '@backsight/store/callbacks/job';
import type { Reader } from '@backsight/store/database';
import { findRulePack } from '@backsight/store/firm/rulePacks';
import { dayAt } from './day.ts';

/** `packId` is null where nothing is on file for the state. */
export async function repairRuleFor(reader: Reader, job: JobForCallback, now: Date): Promise<{ rule: RepairRule; packId: string | null }> {
  const today = dayAt(now, job.zone);
  const pack = await findRulePack(reader, job.jurisdiction, today);
  const rule = repairRule(pack?.name || job.jurisdiction, rowsOn(pack?.rows ?? [], today), { inspectedOn: job.inspectedOn, today });
  return { rule, packId: pack?.id ?? null };
}
