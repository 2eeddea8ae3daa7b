// Changes a person: what they may do, where they live, when they leave.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { mayBecome } from '@backsight/domain/people/rules';
import type { Role } from '@backsight/domain/people/roles';
import { findPerson, otherOwners, updatePerson, type PersonEdit } from '@backsight/store/people';
import { endSessionsOf } from '@backsight/store/sessions';
import type { Act, Work } from '../run.ts';
import { actorSaysPassword, tellOfSignIn } from './steps/security.ts';

/** `password`: the own one of whoever changes the address that somebody signs in with. */
export type ChangePersonInput = {
  id: string;
  version: number;
  password?: string | undefined;
  edit: Omit<PersonEdit, 'roles'> & { roles?: Role[] };
};

export const changePerson: Act<ChangePersonInput, { id: string; version: number }> = { operation: 'people.change', run: change };

async function change(work: Work, input: ChangePersonInput): Promise<Outcome<{ id: string; version: number }>> {
  const before = await findPerson(work.tx, input.id);
  if (!before) return refuse('not-found', { thing: 'person' });
  if (before.roles.includes('owner')) {
    const roles = input.edit.roles ?? before.roles;
    const endedOn = input.edit.endedOn === undefined ? before.endedOn : input.edit.endedOn;
    const allowed = mayBecome({ otherOwners: await otherOwners(work.tx, input.id) }, { roles, endedOn });
    if (!allowed.ok) return allowed;
  }
  const moved = input.edit.email !== undefined && input.edit.email.toLowerCase() !== before.email.toLowerCase();
  if (moved) {
    if (!input.password) return refuse('password-needed', {}, 'password');
    const sure = await actorSaysPassword(work, input.password);
    if (!sure.ok) return sure;
  }
  if (!(await updatePerson(work.tx, input.id, input.version, input.edit))) return refuse('changed-meanwhile');
  // Whoever has other roles, or leaves, signs in anew: no session goes on with what it was begun for.
  const others = input.edit.roles !== undefined && input.edit.roles.toSorted().join() !== before.roles.toSorted().join();
  if (others || input.edit.endedOn) await endSessionsOf(work.tx, input.id, work.now, null);
  if (moved && before.canSignIn)
    for (const email of [before.email, input.edit.email!])
      await tellOfSignIn(work, { ...before, email }, `From now on you sign in with the address ${input.edit.email}.`);
  await work.did('person', input.id, {
    changed: Object.keys(input.edit),
    rolesBefore: before.roles,
    rolesAfter: input.edit.roles ?? before.roles,
  });
  return accept({ id: input.id, version: input.version + 1 });
}
