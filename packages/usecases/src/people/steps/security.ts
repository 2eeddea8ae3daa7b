// What every change of how somebody signs in has in common: the password that is allowed, who is sure to be asking, and a mail that tells of it.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { passwordAllowed } from '@backsight/domain/people/passwords';
import { codeOf } from '@backsight/domain/people/secondFactor';
import { findFirm } from '@backsight/store/firm';
import { queueMail } from '@backsight/store/mail';
import { findFactor, takeRecoveryCode, takeStep } from '@backsight/store/people/secondFactor';
import { findPasswordHash } from '@backsight/store/sessions';
import type { Reader, Tx } from '@backsight/store/database';
import type { Work } from '../../run.ts';
import { openSecret, recoveryDigest, stepOf } from './oneTimeCode.ts';
import { passwordFits } from './password.ts';

/** Refusals: password-too-short, password-common, password-of-names. */
export const mayChoose = async (reader: Reader, person: { name: string; email: string }, password: string): Promise<Outcome<null>> =>
  passwordAllowed(password, { firm: (await findFirm(reader))?.name ?? '', name: person.name, email: person.email });

/** Whoever changes how people sign in says the own password again: an open window is not enough. Refusals: password-wrong. */
export const saysPassword = async (work: Work, personId: string, password: string): Promise<Outcome<null>> =>
  (await passwordFits(await findPasswordHash(work.tx, personId), password)) ? accept(null) : refuse('password-wrong', {}, 'password');

/** The own password of whoever acts. Refusals: password-wrong. */
export const actorSaysPassword = (work: Work, password: string): Promise<Outcome<null>> =>
  work.actor.kind === 'person' ? saysPassword(work, work.actor.id, password) : Promise.resolve(accept(null));

/**
 * A code of the phone, or one of those for whoever lost it; either is good once, also for two who send it at once.
 * Refusals: code-wrong, factor-unreadable.
 */
export async function takeCode(
  tx: Tx,
  { personId, typed, now, secretKey }: { personId: string; typed: string; now: Date; secretKey: Buffer },
): Promise<Outcome<'one_time' | 'recovery'>> {
  const { kind, code } = codeOf(typed);
  const wrong = refuse('code-wrong', {}, 'code');
  if (kind === 'recovery') return (await takeRecoveryCode(tx, personId, recoveryDigest(code), now)) ? accept(kind) : wrong;
  const factor = await findFactor(tx, personId);
  if (!factor) return wrong;
  const secret = openSecret(secretKey, personId, factor.secret);
  if (secret === null) return refuse('factor-unreadable', {}, 'code');
  const step = stepOf(secret, code, now, factor.lastStep);
  const taken = step !== null && (await takeStep(tx, personId, step)).count === 1;
  return taken ? accept(kind) : wrong;
}

type To = { id: string; name: string; email: string };

/** Tells somebody that how they sign in was changed, so that whoever did not do it can act. `what` is a whole sentence. */
export async function tellOfSignIn(
  { tx, now, newId }: Pick<Work, 'tx' | 'now' | 'newId'>,
  { id, name, email }: To,
  what: string,
): Promise<void> {
  const firm = (await findFirm(tx))?.name ?? 'Backsight';
  const body = [`Dear ${name},`, what, 'Was it you, you need do nothing. Was it not, call an owner of the firm at once.'].join('\n\n');
  const mail = { toAddress: email, toName: name, subject: `Your sign-in at ${firm} was changed`, body, urgent: true };
  await queueMail(tx, { ...mail, id: newId(), messageKey: `sign-in-changed:${newId()}`, aboutKind: 'person', aboutId: id, at: now });
}
