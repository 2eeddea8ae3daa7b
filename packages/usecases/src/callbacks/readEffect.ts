// Whether the change of a corrective action helped, for whoever looks at it.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findAction } from '@backsight/store/callbacks/actions';
import type { Reader } from '@backsight/store/database';
import { effectOf, type Effect } from './steps/effectOf.ts';

export async function readEffect(reader: Reader, input: { id: string; days: number | null; now: Date }): Promise<Outcome<Effect>> {
  const action = await findAction(reader, input.id);
  return action ? accept(await effectOf(reader, action, input)) : refuse('not-found', { thing: 'corrective action' });
}
