// What a client's signature needs.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

/** What came in from the signing page; `sha256` is the digest of the body that was shown. */
export type SigningCommand = { name: string; read: boolean; consent: boolean; sha256: string };

/** Name, both boxes, and the words that were read are the words that are signed. */
export function decideSigning(agreement: { sha256: string }, c: SigningCommand): Outcome<{ name: string }> {
  const name = c.name.replace(/\s+/g, ' ').trim();
  if (c.sha256 !== agreement.sha256) return refuse('agreement-changed');
  if (!c.read) return refuse('not-read', {}, 'read');
  if (!c.consent) return refuse('no-consent', {}, 'consent');
  return name.length < 3 || name.length > 120 ? refuse('name-missing', {}, 'name') : accept({ name });
}
