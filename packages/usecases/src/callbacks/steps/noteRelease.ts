// Writes down on its callback what became of a settlement release.
import { findRemedy, lockCallback } from '@backsight/store/callbacks';
import type { Details, Work } from '../../run.ts';
import { record } from './callback.ts';

export async function noteRelease(work: Work, remedyId: string, event: { kind: string; details: Details }): Promise<void> {
  const remedy = (await findRemedy(work.tx, remedyId))!;
  const callback = (await lockCallback(work.tx, remedy.callbackId))!;
  await record(work, callback, { kind: event.kind, state: callback.state, details: { ...event.details, remedyId } });
}
