// Changes a password: one's own with the present one, or somebody's as the owner. Every other session of that person ends.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { passwordLongEnough } from '@backsight/domain/people/rules';
import { findPerson } from '@backsight/store/people';
import { endSessionsOf, findPasswordHash, storePasswordHash } from '@backsight/store/sessions';
import type { Act, Work } from '../run.ts';
import { hashPassword, passwordFits } from './steps/password.ts';

export type ChangePasswordInput = { personId: string; password: string; present?: string; keepSession?: string };

export const changePassword: Act<ChangePasswordInput, Record<string, never>> = { operation: 'people.change-password', run: change };

async function change(work: Work, input: ChangePasswordInput): Promise<Outcome<Record<string, never>>> {
  const long = passwordLongEnough(input.password);
  if (!long.ok) return long;
  if (!(await findPerson(work.tx, input.personId))) return refuse('not-found', { thing: 'person' });
  const own = work.actor.kind === 'person' && work.actor.id === input.personId;
  if (own && !(await passwordFits(await findPasswordHash(work.tx, input.personId), input.present ?? '')))
    return refuse('password-wrong', {}, 'present');
  await storePasswordHash(work.tx, input.personId, await hashPassword(input.password));
  await endSessionsOf(work.tx, input.personId, work.now, input.keepSession ?? null);
  await work.did('person', input.personId, { own });
  return accept({});
}
