// Where somebody is signed in, and ending that elsewhere.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { mustHaveFactor } from '@backsight/domain/people/secondFactor';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { findPerson } from '@backsight/store/people';
import { findFactor, recoveryCodesLeft } from '@backsight/store/people/secondFactor';
import { endOwnSession, endSessionsOf, sessionsOf } from '@backsight/store/sessions';
import type { Act } from '../run.ts';

type Asking = { personId: string; sessionId: string; now: Date; ownersMust: boolean };

/** Sessions, the newest first, and how the second factor stands. */
export async function readSecurity(reader: Reader, { personId, sessionId, now, ownersMust }: Asking) {
  const factor = await findFactor(reader, personId);
  const [person, firm] = [await findPerson(reader, personId), await findFirm(reader)];
  return {
    factor: factor?.confirmed ? ('on' as const) : ('off' as const),
    mustHave: mustHaveFactor({ roles: person?.roles ?? [], demo: firm?.demo ?? false, ownersMust }),
    codesLeft: await recoveryCodesLeft(reader, personId),
    sessions: (await sessionsOf(reader, personId, now)).map(({ id, agent, beganAt }) => ({
      id,
      agent,
      beganAt: beganAt.toISOString(),
      here: id === sessionId,
    })),
  };
}

export const endSessionElsewhere: Act<{ personId: string; id: string }, Record<string, never>> = {
  operation: 'people.end-session',
  run: async (work, { personId, id }) => {
    if (!(await endOwnSession(work.tx, personId, id, work.now))) return refuse('not-found', { thing: 'session' });
    await work.did('session', id);
    return accept({});
  },
};

export const endOtherSessions: Act<{ personId: string; sessionId: string }, { ended: number }> = {
  operation: 'people.end-other-sessions',
  run: async (work, { personId, sessionId }) => {
    const { count } = await endSessionsOf(work.tx, personId, work.now, sessionId);
    await work.did('person', personId, { ended: count });
    return accept({ ended: count });
  },
};
