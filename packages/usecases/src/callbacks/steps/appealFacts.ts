// What the rules about appeals and answers need to know of a callback.
import type { AppealOn } from '@backsight/domain/callbacks/after';
import type { CallbackRow } from '@backsight/store/callbacks';
import { closedAt } from '@backsight/store/callbacks/after';
import { appealsOf } from '@backsight/store/callbacks/appeals';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { decisionToldAt } from '@backsight/store/callbacks/letters';
import type { Reader } from '@backsight/store/database';
import { dayAt } from './day.ts';

export async function appealFacts(
  reader: Reader,
  callback: CallbackRow,
  now: Date,
): Promise<AppealOn & { closedOn: string | null; zone: string }> {
  const { zone } = (await findJobForCallback(reader, callback.jobId))!;
  const day = (at: Date | null | undefined): string | null => (at ? dayAt(at, zone) : null);
  const appeals = await appealsOf(reader, callback.id);
  return {
    kind: callback.kind,
    ownerOnly: callback.ownerOnly,
    today: dayAt(now, zone),
    toldOn: day(await decisionToldAt(reader, callback.id)),
    appealedOn: day(appeals[0]?.receivedAt),
    appealOpen: appeals.some(({ result }) => result === null),
    closedOn: day(await closedAt(reader, callback.id)),
    zone,
  };
}
