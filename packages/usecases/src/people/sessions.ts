// Where somebody is signed in, and ending that elsewhere.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { mustHaveFactor, type FactorFor } from '@backsight/domain/people/secondFactor';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { findPerson } from '@backsight/store/people';
import { findFactor, recoveryCodesLeft } from '@backsight/store/people/secondFactor';
import { endOwnSession, endSessionsOf, sessionsOf } from '@backsight/store/sessions';
import type { Act } from '../run.ts';
import { actorSaysPassword, saysPassword } from './steps/security.ts';

type Asking = { personId: string; sessionId: string; now: Date; who: FactorFor };

/** Sessions, the newest first, and how the second factor stands. */
export async function readSecurity(reader: Reader, { personId, sessionId, now, who }: Asking) {
  const factor = await findFactor(reader, personId);
  const [person, firm] = [await findPerson(reader, personId), await findFirm(reader)];
  return {
    factor: factor?.confirmed ? ('on' as const) : ('off' as const),
    mustHave: mustHaveFactor({ roles: person?.roles ?? [], demo: firm?.demo ?? false, who }),
    codesLeft: await recoveryCodesLeft(reader, personId),
    sessions: (await sessionsOf(reader, personId, now)).map(({ id, agent, beganAt, lastSeenAt }) => ({
      id,
      agent,
      beganAt: beganAt.toISOString(),
      lastSeenAt: lastSeenAt.toISOString(),
      here: id === sessionId,
    })),
  };
}

/** Ends one of one's own other sessions, or all of them. Refusals: password-wrong, not-found. */
export const endOwnSessions: Act<{ personId: string; sessionId: string; password: string; id?: string | undefined }, { ended: number }> = {
  operation: 'people.end-other-sessions',
  run: async (work, { personId, sessionId, password, id }) => {
    const sure = await saysPassword(work, personId, password);
    if (!sure.ok) return sure;
    if (id === undefined) {
      const { count } = await endSessionsOf(work.tx, personId, work.now, sessionId);
      await work.did('person', personId, { ended: count });
      return accept({ ended: count });
    }
    if (!(await endOwnSession(work.tx, personId, id, work.now))) return refuse('not-found', { thing: 'session' });
    await work.did('session', id, { ended: 1 });
    return accept({ ended: 1 });
  },
};

/** An owner, who says the own password, signs somebody out everywhere. Refusals: not-found, password-wrong. */
export const endSessionsOfPerson: Act<{ personId: string; password: string }, { ended: number }> = {
  operation: 'people.end-sessions-of-person',
  run: async (work, { personId, password }) => {
    if (!(await findPerson(work.tx, personId))) return refuse('not-found', { thing: 'person' });
    const sure = await actorSaysPassword(work, password);
    if (!sure.ok) return sure;
    const { count } = await endSessionsOf(work.tx, personId, work.now, null);
    await work.did('person', personId, { ended: count });
    return accept({ ended: count });
  },
};
