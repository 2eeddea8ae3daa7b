// Whether an act on a spreadsheet comes at its time.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { lockBringIn, type BringInRow, type BringInState } from '@backsight/store/firm/bringIns';
import type { Tx } from '@backsight/store/database';

/** In sentences, as the screen says them. */
const SAID: Record<BringInState, string> = {
  to_map: 'This spreadsheet waits for its columns to be said.',
  checking: 'This spreadsheet is just being looked through.',
  checked: 'This spreadsheet was looked through.',
  bringing: 'This spreadsheet is just being brought in.',
  done: 'This spreadsheet was brought in.',
  undoing: 'What this spreadsheet brought is just being taken out again.',
  undone: 'What this spreadsheet brought was taken out again.',
  thrown_away: 'This spreadsheet was thrown away.',
};

/** The spreadsheet, locked, in one of the states and in the version that was seen. Refusals: not-found, changed-meanwhile, bring-in-is. */
export async function lockInState(
  tx: Tx,
  { id, version, states }: { id: string; version: number; states: readonly BringInState[] },
): Promise<Outcome<BringInRow>> {
  const row = await lockBringIn(tx, id);
  if (!row) return refuse('not-found', { thing: 'spreadsheet' });
  if (!states.includes(row.state)) return refuse('bring-in-is', { state: SAID[row.state] });
  return row.version === version ? accept(row) : refuse('changed-meanwhile');
}
