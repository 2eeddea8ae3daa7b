// What somebody asks to be done with a spreadsheet that was looked through: bring it in, throw it away, or take out again what it brought.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { setBringIn } from '@backsight/store/firm/bringIns';
import type { Act, Work } from '../../run.ts';
import { dependsOn } from '@backsight/store/firm/takeOut';
import { saidDepends } from '../steps/bringIn/depends.ts';
import { lockInState } from '../steps/bringIn/inState.ts';
import { countsKept } from '../steps/bringIn/stored.ts';

type Asked = { id: string; version: number };

/** `leaveOut`: whether rows with something to put right may be left out. */
export const askToBring: Act<Asked & { leaveOut: boolean }, Asked> = { operation: 'firm.bring-in-ask', run: bring };

async function bring(work: Work, { id, version, leaveOut }: Asked & { leaveOut: boolean }): Promise<Outcome<Asked>> {
  const found = await lockInState(work.tx, { id, version, states: ['checked'] });
  if (!found.ok) return found;
  const counts = countsKept(found.value);
  if (!counts || counts.fresh === 0) return refuse('bring-in-nothing');
  if (counts.left > 0 && !leaveOut) return refuse('bring-in-left-out', { left: counts.left }, 'leaveOut');
  const next = await setBringIn(work.tx, id, { state: 'bringing' });
  await work.did('spreadsheet', id, { kind: found.value.kind, rows: counts.fresh, left: counts.left });
  return accept({ id, version: next });
}

export const throwAway: Act<Asked, Asked> = { operation: 'firm.bring-in-throw-away', run: away };

async function away(work: Work, { id, version }: Asked): Promise<Outcome<Asked>> {
  const found = await lockInState(work.tx, { id, version, states: ['to_map', 'checked'] });
  if (!found.ok) return found;
  const next = await setBringIn(work.tx, id, { state: 'thrown_away', endedAt: work.now });
  await work.did('spreadsheet', id, { kind: found.value.kind });
  return accept({ id, version: next });
}

/** Refused at once where something depends on what was brought. */
export const askToUndo: Act<Asked, Asked> = { operation: 'firm.bring-in-undo', run: undo };

async function undo(work: Work, { id, version }: Asked): Promise<Outcome<Asked>> {
  const found = await lockInState(work.tx, { id, version, states: ['done'] });
  if (!found.ok) return found;
  const depends = await dependsOn(work.tx, id);
  if (depends.length > 0) return refuse('bring-in-depended-on', { what: saidDepends(depends) });
  const next = await setBringIn(work.tx, id, { state: 'undoing' });
  await work.did('spreadsheet', id, { kind: found.value.kind });
  return accept({ id, version: next });
}
