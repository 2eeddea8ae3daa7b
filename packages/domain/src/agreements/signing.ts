// What a client's signature needs, and what stands in its place when a client does not sign.
import { accept, refuse, type Outcome, type Refusal } from '../shared/outcome.ts';
import { readStrokes } from '../shared/strokes.ts';

/**
 * What came in from the signing page. `sha256` is the digest of the body that was shown; `word` is what the client read in the PDF;
 * `strokes` is the drawing as text, empty when the typed name is the signature.
 */
export type SigningCommand = {
  name: string;
  read: boolean;
  consent: boolean;
  sha256: string;
  word: string;
  strokes: string;
  interpreter: string;
};

export type Signed = { name: string; strokes: string | null; interpreter: string | null };

const WORDS = [
  'alder',
  'birch',
  'cattail',
  'cedar',
  'clover',
  'crane',
  'dogwood',
  'egret',
  'fern',
  'finch',
  'grebe',
  'hazel',
  'heron',
  'juniper',
  'killdeer',
  'lark',
  'linden',
  'loon',
  'maple',
  'meadow',
  'merlin',
  'minnow',
  'osprey',
  'otter',
  'pebble',
  'perch',
  'plover',
  'robin',
  'sedge',
  'swallow',
  'tamarack',
  'willow',
] as const;

/**
 * The word that the PDF shows to one signer. Typing it shows that the person can open records in that format (15 USC 7001(c)(1)(C)(ii)).
 * It is no secret: it depends on nothing but the digest of the body and the signer.
 */
export function formatWord(bodySha256: string, signerId: string): string {
  const at = Number.parseInt(bodySha256.slice(0, 6), 16) + Number.parseInt(signerId.replaceAll('-', '').slice(-6), 16);
  return WORDS[at % WORDS.length]!;
}

export const saysWord = (typed: string, word: string): boolean =>
  typed
    .trim()
    .toLowerCase()
    .replace(/[^a-z]/g, '') === word;

const tidy = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** What is missing, in the order of the page: both boxes, the word of the PDF, the name, and the drawing where one was made. */
function faultsOf(word: string, name: string, c: SigningCommand): Refusal[] {
  const drawn = c.strokes === '' ? null : readStrokes(c.strokes);
  return [
    ...(c.read ? [] : [refuse('not-read', {}, 'read')]),
    ...(saysWord(c.word, word) ? [] : [refuse('format-unproven', {}, 'word')]),
    ...(c.consent ? [] : [refuse('no-consent', {}, 'consent')]),
    ...(name.length < 3 || name.length > 120 ? [refuse('name-missing', {}, 'name')] : []),
    ...(drawn === null || drawn.ok ? [] : [drawn]),
  ];
}

/** The words that were read are the words that are signed. All that is missing is named at once. */
export function decideSigning(agreement: { sha256: string; word: string }, c: SigningCommand): Outcome<Signed> {
  const name = tidy(c.name);
  if (c.sha256 !== agreement.sha256) return refuse('agreement-changed');
  const [first, ...also] = faultsOf(agreement.word, name, c);
  if (first) return also.length > 0 ? { ...first, also } : first;
  return accept({ name, strokes: c.strokes === '' ? null : c.strokes, interpreter: tidy(c.interpreter).slice(0, 120) || null });
}

/** A client who declines says why; one who wants paper need not. */
export function decideAnswer(kind: 'declined' | 'wants_paper', reason: string): Outcome<{ reason: string }> {
  const said = reason.trim().slice(0, 1000);
  return kind === 'declined' && said.length < 3 ? refuse('answer-reason-missing', {}, 'reason') : accept({ reason: said });
}

/** A device without signal keeps its own time; one whose clock is ahead, or behind the agreement, is set right. */
export const signedAt = (deviceTime: Date | null, issuedAt: Date, now: Date): Date =>
  deviceTime === null ? now : new Date(Math.min(Math.max(deviceTime.getTime(), issuedAt.getTime()), now.getTime()));
