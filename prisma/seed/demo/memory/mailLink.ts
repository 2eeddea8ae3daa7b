// The private link that a client was mailed: only the mail knows it, the records keep a digest.
import type { Reader } from '@backsight/store/database';
import type { Answer } from './answer.ts';
import { by, type Row, type Tables } from './tables.ts';

const SQL = `SELECT body FROM outgoing_mail WHERE message_key = $1 OR starts_with(message_key, $2) ORDER BY recorded_at DESC`;

/** Token of a signer's newest link. @throws Error when no link was sent */
export async function linkOf(reader: Reader, signerId: string): Promise<string> {
  const [mail] = await reader.rows<{ body: string }>(SQL, [`agreement:${signerId}`, `agreement-reminder:${signerId}:`]);
  const token = mail?.body.match(/\/client\/([\w-]+)/)?.[1];
  if (!token) throw new Error('this signer was sent no link');
  return token;
}

const links = (t: Tables, [issued, reminded]: readonly string[]): Row[] => {
  const first = by(t, 'outgoingMail', 'messageKey', issued);
  const later = first.flatMap(({ aboutId }) =>
    by(t, 'outgoingMail', 'aboutId', aboutId).filter(({ messageKey }) => messageKey.startsWith(reminded)),
  );
  return [...later.toReversed(), ...first];
};

const contactable = (t: Tables, [jobId]: readonly string[]): { ids: string[] }[] => [
  { ids: [...by(t, 'jobParty', 'jobId', jobId), ...by(t, 'callback', 'jobId', jobId)].map(({ partyId }) => partyId) },
];

export const MAIL_ANSWERS: readonly Answer[] = [
  { marks: [SQL], reply: links },
  { marks: ['FROM mail_wording WHERE kind'], reply: (t, [kind]) => by(t, 'mailWording', 'kind', kind).slice(-1) },
  { marks: ['SELECT party_id::text FROM job_party WHERE job_id = j.id UNION'], reply: contactable },
];
