// How a record stands, in a few bytes: asked again and again by whoever waits for the partner.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { standOf } from '@backsight/store/sitework';
import type { Actor } from '../run.ts';

/** Refusals: not-found, not-on-this-visit. */
export async function readStand(reader: Reader, input: { recordId: string; actor: Actor }): Promise<Outcome<{ mark: string }>> {
  if (input.actor.kind !== 'person') return refuse('not-on-this-visit');
  const stand = await standOf(reader, input.recordId, input.actor.id);
  if (!stand) return refuse('not-found', { thing: 'site record' });
  return stand.handed ? accept({ mark: stand.mark }) : refuse('not-on-this-visit');
}
