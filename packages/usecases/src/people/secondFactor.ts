// Setting up, confirming and taking off the second factor; new recovery codes. Whoever does it says the present password.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { mustHaveFactor } from '@backsight/domain/people/secondFactor';
import { findFirm } from '@backsight/store/firm';
import { findPerson } from '@backsight/store/people';
import { beginFactor, confirmFactor, findFactor, removeFactor, storeRecoveryCodes, takeStep } from '@backsight/store/people/secondFactor';
import { endSessionsOf, findPasswordHash, makeWhole } from '@backsight/store/sessions';
import type { Act, Work } from '../run.ts';
import { forPhone, newRecoveryCodes, newSecret, openSecret, recoveryDigest, sealSecret, stepOf } from './steps/oneTimeCode.ts';
import { passwordFits } from './steps/password.ts';

type Own = { personId: string; password: string };
type Keyed = { secretKey: Buffer };

const ownPassword = async (work: Work, { personId, password }: Own): Promise<Outcome<null>> =>
  (await passwordFits(await findPasswordHash(work.tx, personId), password)) ? accept(null) : refuse('password-wrong', {}, 'password');

/** A new secret for the phone; it counts once a code of it was typed. Refusals: password-wrong, factor-is-on. */
export const beginSecondFactor: Act<Own & Keyed & { issuer: string }, { secret: string; uri: string }> = {
  operation: 'people.begin-second-factor',
  run: async (work, { secretKey, issuer, ...own }) => {
    const fits = await ownPassword(work, own);
    if (!fits.ok) return fits;
    if ((await findFactor(work.tx, own.personId))?.confirmed) return refuse('factor-is-on');
    const secret = newSecret();
    await beginFactor(work.tx, own.personId, new Uint8Array(sealSecret(secretKey, own.personId, secret)), work.now);
    await work.did('person', own.personId);
    return accept(forPhone(secret, (await findPerson(work.tx, own.personId))!.email, issuer));
  },
};

/** A code of the phone proves that it has the secret: from now on it is asked for. Answers the recovery codes, this once. Refusals: factor-not-begun, factor-is-on, factor-unreadable, code-wrong. */
export const confirmSecondFactor: Act<Keyed & { personId: string; sessionId: string; code: string }, { codes: string[] }> = {
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
    return accept({ codes: await freshCodes(work, personId) });
  },
};

async function freshCodes(work: Work, personId: string): Promise<string[]> {
  const codes = newRecoveryCodes();
  await storeRecoveryCodes(work.tx, personId, codes.map(recoveryDigest), work.now);
  await work.did('person', personId, { codes: codes.length });
  return codes;
}

/** New recovery codes; those of before are good no more. Refusals: password-wrong, factor-not-begun. */
export const renewRecoveryCodes: Act<Own, { codes: string[] }> = {
  operation: 'people.renew-recovery-codes',
  run: async (work, own) => {
    const fits = await ownPassword(work, own);
    if (!fits.ok) return fits;
    if (!(await findFactor(work.tx, own.personId))?.confirmed) return refuse('factor-not-begun');
    return accept({ codes: await freshCodes(work, own.personId) });
  },
};

/** Takes off one's own. Refusals: password-wrong, factor-must-stay. */
export const removeSecondFactor: Act<Own & { ownersMust: boolean }, Record<string, never>> = {
  operation: 'people.remove-second-factor',
  run: async (work, { ownersMust, ...own }) => {
    const fits = await ownPassword(work, own);
    if (!fits.ok) return fits;
    const person = (await findPerson(work.tx, own.personId))!;
    const demo = (await findFirm(work.tx))?.demo ?? false;
    if (mustHaveFactor({ roles: person.roles, demo, ownersMust })) return refuse('factor-must-stay');
    await removeFactor(work.tx, own.personId);
    await work.did('person', own.personId);
    return accept({});
  },
};

/** An owner takes off the second factor of somebody who lost phone and codes: all sessions of that person end. Refusals: factor-of-oneself. */
export const resetSecondFactor: Act<{ personId: string }, Record<string, never>> = {
  operation: 'people.reset-second-factor',
  run: async (work, { personId }) => {
    if (!(await findPerson(work.tx, personId))) return refuse('not-found', { thing: 'person' });
    if (work.actor.kind === 'person' && work.actor.id === personId) return refuse('factor-of-oneself');
    await removeFactor(work.tx, personId);
    await endSessionsOf(work.tx, personId, work.now, null);
    await work.did('person', personId);
    return accept({});
  },
};
