// Setting up, confirming and taking off the second factor; new recovery codes. Whoever does it says the present password, and a code where one is on.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { mustHaveFactor, type FactorFor } from '@backsight/domain/people/secondFactor';
import { findFirm } from '@backsight/store/firm';
import { findPerson } from '@backsight/store/people';
import { beginFactor, confirmFactor, findFactor, removeFactor, storeRecoveryCodes, takeStep } from '@backsight/store/people/secondFactor';
import { endSessionsOf, makeWhole, renewSession } from '@backsight/store/sessions';
import type { Act, Work } from '../run.ts';
import { forPhone, newRecoveryCodes, newSecret, openSecret, recoveryDigest, sealSecret, stepOf } from './steps/oneTimeCode.ts';
import { newToken } from './steps/password.ts';
import { actorSaysPassword, saysPassword, takeCode, tellOfSignIn } from './steps/security.ts';

type Keyed = { secretKey: Buffer };
type Own = { personId: string; password: string };
/** `code`: of the phone, or a recovery code. */
type Both = Own & Keyed & { sessionId: string; code: string };

const tell = async (work: Work, personId: string, what: string): Promise<void> =>
  tellOfSignIn(work, (await findPerson(work.tx, personId))!, what);

/** A new secret for the phone; it counts once a code of it was typed. Refusals: password-wrong, factor-is-on. */
export const beginSecondFactor: Act<Own & Keyed & { issuer: string }, { secret: string; uri: string }> = {
  operation: 'people.begin-second-factor',
  run: async (work, { secretKey, issuer, personId, password }) => {
    const sure = await saysPassword(work, personId, password);
    if (!sure.ok) return sure;
    if ((await findFactor(work.tx, personId))?.confirmed) return refuse('factor-is-on');
    const secret = newSecret();
    await beginFactor(work.tx, personId, new Uint8Array(sealSecret(secretKey, personId, secret)), work.now);
    await work.did('person', personId);
    return accept(forPhone(secret, (await findPerson(work.tx, personId))!.email, issuer));
  },
};

/**
 * A code of the phone proves that it has the secret: from now on it is asked for. Answers the recovery codes, this once, and the token under
 * which the session goes on. Refusals: factor-not-begun, factor-is-on, factor-unreadable, code-wrong.
 */
export const confirmSecondFactor: Act<Keyed & { personId: string; sessionId: string; code: string }, { codes: string[]; token: string }> = {
  operation: 'people.confirm-second-factor',
  run: async (work, { secretKey, personId, sessionId, code }) => {
    const factor = await findFactor(work.tx, personId);
    if (!factor) return refuse('factor-not-begun');
    if (factor.confirmed) return refuse('factor-is-on');
    const secret = openSecret(secretKey, personId, factor.secret);
    if (secret === null) return refuse('factor-unreadable');
    const step = stepOf(secret, code.replace(/\s/g, ''), work.now, factor.lastStep);
    if (step === null) return refuse('code-wrong', {}, 'code');
    await takeStep(work.tx, personId, step);
    await confirmFactor(work.tx, personId, work.now);
    await makeWhole(work.tx, sessionId);
    await endSessionsOf(work.tx, personId, work.now, sessionId);
    const { token, tokenHash } = newToken();
    await renewSession(work.tx, sessionId, tokenHash);
    await tell(work, personId, 'From now on you sign in with your password and a code of your phone.');
    return accept({ codes: await freshCodes(work, personId), token });
  },
};

async function freshCodes(work: Work, personId: string): Promise<string[]> {
  const codes = newRecoveryCodes();
  await storeRecoveryCodes(work.tx, personId, codes.map(recoveryDigest), work.now);
  await work.did('person', personId, { codes: codes.length });
  return codes;
}

/** Refusals: password-wrong, factor-not-begun, code-wrong, factor-unreadable. */
async function saysBoth(work: Work, { personId, password, code, secretKey }: Both): Promise<Outcome<unknown>> {
  const sure = await saysPassword(work, personId, password);
  if (!sure.ok) return sure;
  if (!(await findFactor(work.tx, personId))?.confirmed) return refuse('factor-not-begun');
  return takeCode(work.tx, { personId, typed: code, now: work.now, secretKey });
}

/** New recovery codes; those of before are good no more. Refusals: password-wrong, factor-not-begun, code-wrong. */
export const renewRecoveryCodes: Act<Both, { codes: string[] }> = {
  operation: 'people.renew-recovery-codes',
  run: async (work, both) => {
    const sure = await saysBoth(work, both);
    if (!sure.ok) return sure;
    await tell(work, both.personId, 'You have new recovery codes; those of before are good no more.');
    return accept({ codes: await freshCodes(work, both.personId) });
  },
};

/** Takes off one's own; every other session ends. Refusals: password-wrong, factor-not-begun, code-wrong, factor-must-stay. */
export const removeSecondFactor: Act<Both & { who: FactorFor }, Record<string, never>> = {
  operation: 'people.remove-second-factor',
  run: async (work, { who, ...both }) => {
    const person = (await findPerson(work.tx, both.personId))!;
    const demo = (await findFirm(work.tx))?.demo ?? false;
    if (mustHaveFactor({ roles: person.roles, demo, who })) return refuse('factor-must-stay');
    const sure = await saysBoth(work, both);
    if (!sure.ok) return sure;
    await removeFactor(work.tx, both.personId);
    await endSessionsOf(work.tx, both.personId, work.now, both.sessionId);
    await tell(work, both.personId, 'From now on your password alone signs you in.');
    await work.did('person', both.personId);
    return accept({});
  },
};

/**
 * An owner, who says the own password, takes off the second factor of somebody who lost phone and codes: all sessions of that person end.
 * Refusals: factor-of-oneself, password-wrong.
 */
export const resetSecondFactor: Act<{ personId: string; password: string }, Record<string, never>> = {
  operation: 'people.reset-second-factor',
  run: async (work, { personId, password }) => {
    if (!(await findPerson(work.tx, personId))) return refuse('not-found', { thing: 'person' });
    if (work.actor.kind === 'person' && work.actor.id === personId) return refuse('factor-of-oneself');
    const sure = await actorSaysPassword(work, password);
    if (!sure.ok) return sure;
    await removeFactor(work.tx, personId);
    await endSessionsOf(work.tx, personId, work.now, null);
    await tell(work, personId, 'Your second factor was taken off: until you set it up anew, your password alone signs you in.');
    await work.did('person', personId);
    return accept({});
  },
};
