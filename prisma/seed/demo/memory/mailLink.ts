// The private link that a client was mailed: only the mail knows it, the records keep a digest.
import type { Reader } from '@backsight/store/database';
import type { Answer } from './answer.ts';
import { by } from './tables.ts';

const SQL = 'SELECT body FROM outgoing_mail WHERE message_key = $1';

/** Token of a signer's link. @throws Error when no link was sent */
export async function linkOf(reader: Reader, signerId: string): Promise<string> {
  const [mail] = await reader.rows<{ body: string }>(SQL, [`agreement:${signerId}`]);
  const token = mail?.body.match(/\/client\/([\w-]+)/)?.[1];
  if (!token) throw new Error('this signer was sent no link');
  return token;
}

export const MAIL_ANSWERS: readonly Answer[] = [
  { marks: [SQL], reply: (t, [key]) => by(t, 'outgoingMail', 'messageKey', key) },
  { marks: ['FROM mail_wording WHERE kind'], reply: (t, [kind]) => by(t, 'mailWording', 'kind', kind).slice(-1) },
];
