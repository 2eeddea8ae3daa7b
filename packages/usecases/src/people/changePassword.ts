// Changes a password: one's own with the present one, or somebody's as the owner, with the owner's own. Every other session of that person ends.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findPerson } from '@backsight/store/people';
import { endSessionsOf, findPasswordHash, renewSession, storePasswordHash } from '@backsight/store/sessions';
import type { Act, Work } from '../run.ts';
import { hashPassword, newToken, passwordFits } from './steps/password.ts';
import { actorSaysPassword, mayChoose, tellOfSignIn } from './steps/security.ts';

export type ChangeOwnInput = { personId: string; sessionId: string; present: string; password: string };

/** One's own. The session goes on under a new token. Refusals: password-wrong, those of a password. */
export const changeOwnPassword: Act<ChangeOwnInput, { token: string }> = {
  operation: 'people.change-password',
  run: async (work, { personId, sessionId, present, password }) => {
    if (!(await passwordFits(await findPasswordHash(work.tx, personId), present))) return refuse('password-wrong', {}, 'present');
    const changed = await change(work, personId, password, sessionId);
    if (!changed.ok) return changed;
    const { token, tokenHash } = newToken();
    await renewSession(work.tx, sessionId, tokenHash);
    await work.did('person', personId, { own: true });
    return accept({ token });
  },
};

/** Somebody's, by an owner who says the own password (`owners`). Refusals: password-wrong, not-found, those of a password. */
export const givePassword: Act<{ personId: string; owners: string; password: string }, Record<string, never>> = {
  operation: 'people.change-password',
  run: async (work, { personId, owners, password }) => {
    const sure = await actorSaysPassword(work, owners);
    if (!sure.ok) return { ...sure, field: 'owners' };
    const changed = await change(work, personId, password, null);
    if (!changed.ok) return changed;
    await work.did('person', personId, { own: false });
    return accept({});
  },
};

async function change(work: Work, personId: string, password: string, keepSession: string | null): Promise<Outcome<null>> {
  const person = await findPerson(work.tx, personId);
  if (!person) return refuse('not-found', { thing: 'person' });
  const may = await mayChoose(work.tx, person, password);
  if (!may.ok) return may;
  await storePasswordHash(work.tx, personId, await hashPassword(password));
  await endSessionsOf(work.tx, personId, work.now, keepSession);
  await tellOfSignIn(work, person, keepSession ? 'Your password was changed.' : 'An owner gave you a new password.');
  return accept(null);
}
