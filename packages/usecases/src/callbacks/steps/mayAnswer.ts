// Who may see a danger and say "I have it": who sees the callback, and who was alerted or is on call now.
import type { Role } from '@backsight/domain/people/roles';
import type { CallbackRow } from '@backsight/store/callbacks';
import { chainsOf } from '@backsight/store/callbacks/danger';
import type { Reader } from '@backsight/store/database';
import { chainFor } from './onCall.ts';

const DESK: readonly Role[] = ['owner', 'lead_inspector', 'office_manager'];

export async function mayAnswer(
  reader: Reader,
  callback: Pick<CallbackRow, 'id' | 'ownerOnly'>,
  who: { id: string; roles: readonly Role[]; now: Date },
): Promise<boolean> {
  if (callback.ownerOnly) return who.roles.includes('owner');
  if (who.roles.some((role) => DESK.includes(role))) return true;
  const chains = await chainsOf(reader, callback.id);
  if (chains.length === 0) return false;
  if (chains.some(({ alerts }) => alerts.some(({ personId }) => personId === who.id))) return true;
  return (await chainFor(reader, who.now, false)).some(({ id }) => id === who.id);
}
