// Links by which a person chooses a password: whoever is new is invited, whoever forgot asks for one. Each opens once, and only its digest is kept.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findFirm } from '@backsight/store/firm';
import { findPerson } from '@backsight/store/people';
import { addPasswordLink, passwordLinksSince, usePasswordLink } from '@backsight/store/people/passwordLinks';
import { endSessionsOf, findByEmail, findPasswordHash, storePasswordHash } from '@backsight/store/sessions';
import type { Act, Work } from '../run.ts';
import { hashPassword, newToken, tokenDigest } from './steps/password.ts';
import { mayChoose, tellOfSignIn } from './steps/security.ts';

const HOUR = 3_600_000;
const FOR_THE_NEW = 72 * HOUR;
const FOR_WHOEVER_FORGOT = HOUR;
/** Mails of this kind to one person in an hour; more would only annoy. */
const AT_MOST = 3;

type To = { id: string; name: string; email: string };

async function sendLink(
  work: Work,
  to: To,
  lasts: number,
  words: (firm: string, link: string) => { subject: string; lines: string[] },
): Promise<Date> {
  const { token, tokenHash } = newToken();
  const expiresAt = new Date(work.now.getTime() + lasts);
  await addPasswordLink(work.tx, { tokenHash, personId: to.id, expiresAt, recordedAt: work.now });
  const firm = (await findFirm(work.tx))?.name ?? 'Backsight';
  const { subject, lines } = words(firm, `${work.publicUrl}/new-password/${token}`);
  const mail = { toAddress: to.email, toName: to.name, subject, body: [`Dear ${to.name},`, ...lines].join('\n\n') };
  await work.mail({ ...mail, messageKey: `password-link:${work.newId()}`, aboutKind: 'person', aboutId: to.id, urgent: true });
  await work.did('person', to.id, { hours: lasts / HOUR });
  return expiresAt;
}

/** Refusals: not-found, invite-has-password, invite-has-left (has left). */
export const invitePerson: Act<{ personId: string }, { until: string }> = {
  operation: 'people.invite',
  run: async (work, { personId }) => {
    const person = await findPerson(work.tx, personId);
    if (!person) return refuse('not-found', { thing: 'person' });
    if (person.endedOn !== null) return refuse('invite-has-left');
    if ((await findPasswordHash(work.tx, personId)) !== null) return refuse('invite-has-password');
    const until = await sendLink(work, person, FOR_THE_NEW, (firm, link) => ({
      subject: `Your way into ${firm}`,
      lines: [`you can sign in at ${firm} with this address. Choose a password here within three days; the link opens once:`, link],
    }));
    return accept({ until: until.toISOString() });
  },
};

/** Always answers the same: whether an address is known is nobody's business. */
export const askForPasswordLink: Act<{ email: string }, Record<string, never>> = {
  operation: 'people.ask-for-password-link',
  run: async (work, { email }) => {
    const known = await findByEmail(work.tx, email.trim());
    const person = known ? await findPerson(work.tx, known.id) : null;
    const often = person ? await passwordLinksSince(work.tx, person.id, new Date(work.now.getTime() - HOUR)) : 0;
    if (person === null || person.endedOn !== null || often >= AT_MOST) await work.did('session', work.newId(), { sent: false });
    else
      await sendLink(work, person, FOR_WHOEVER_FORGOT, (firm, link) => ({
        subject: `A new password for ${firm}`,
        lines: [
          'somebody, probably you, asked for a new password. Choose it here within an hour; the link opens once:',
          link,
          'If it was not you, do nothing: the password of now goes on, and nobody saw it.',
        ],
      }));
    return accept({});
  },
};

/** All sessions and all other links of the person end; a second factor stays. Refusals: those of a password, password-link-spent. */
export const choosePasswordByLink: Act<{ token: string; password: string }, Record<string, never>> = {
  operation: 'people.choose-password-by-link',
  run: async (work, { token, password }): Promise<Outcome<Record<string, never>>> => {
    const personId = await usePasswordLink(work.tx, tokenDigest(token), work.now);
    const person = personId === null ? null : await findPerson(work.tx, personId);
    if (personId === null || person === null) return refuse('password-link-spent');
    const may = await mayChoose(work.tx, person, password);
    if (!may.ok) return may; // nothing of this is kept, so the link still opens
    await storePasswordHash(work.tx, personId, await hashPassword(password));
    if (person.canSignIn) await tellOfSignIn(work, person, 'A new password was chosen by a link that was sent to this address.');
    await endSessionsOf(work.tx, personId, work.now, null);
    await work.did('person', personId);
    return accept({});
  },
};
