// Ranks labelled complaints over the whole book in force, in which any step may apply: harder than a job, whose house has not everything.
import { likelySteps } from '@backsight/domain/callbacks/likely';
import { findInForce } from '@backsight/store/procedures';
import type { Reader } from '@backsight/store/database';
import { rankSteps } from '@backsight/usecases/callbacks/readLikely';
import type { Labelled } from './complaints.ts';

const DONE = [{ outcome: 'done', match: 'as_expected', partnerDiffers: false }];
const NOBODY = '00000000-0000-7000-8000-000000000000';

export type BookStep = { stepKey: string; revisionId: string; title: string; instruction: string; system: string; results: typeof DONE };

/** Every step in force, as if each had been done and nothing said against it. */
export const bookSteps = async (reader: Reader, at: Date): Promise<BookStep[]> =>
  (await findInForce(reader, at)).flatMap(({ steps, revisionId, system }) =>
    steps.map(({ key, title, instruction }) => ({ stepKey: key, revisionId, title, instruction, system, results: DONE })),
  );

/** The place of the first right step among those offered, from 0; -1 where it is not among them. */
export async function placeOf(reader: Reader, steps: readonly BookStep[], complaint: Labelled): Promise<number> {
  const { system, place, words } = complaint;
  const found = await rankSteps(reader, {
    ...{ callbackId: NOBODY, system, said: `${place} ${words}`, steps, texts: steps, seeOwnerOnly: true },
  });
  return likelySteps(found).findIndex(({ stepKey }) => complaint.steps.includes(stepKey));
}

export const share = (places: readonly number[], within: number): number =>
  places.filter((at) => at >= 0 && at < within).length / places.length;
