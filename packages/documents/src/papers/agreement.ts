// The agreement as a paper, and the record of its signing as the last pages of the signed one.
import { CAPACITIES, type Capacity } from '@backsight/domain/agreements/signers';
import { FIELD, pathOf, readStrokes } from '@backsight/domain/shared/strokes';
import type { Block } from '../pdf/content.ts';
import { markdownBlocks } from '../pdf/markdown.ts';

export type SigningProof = {
  signer: string;
  /** null once the words were erased. */
  signedAs: string | null;
  capacity: Capacity;
  /** Why this person may sign for somebody else, and the SHA-256 of the paper that says so. */
  authority: string;
  authorityFile: string | null;
  method: 'link' | 'on_site_device' | 'paper';
  device: string;
  /** Salted digest of the network address; empty where there was none. */
  ipHash: string;
  /** SHA-256 of the private link that was used; empty where there was none. */
  linkHash: string;
  /** Whose address it also was to which the link went; empty: the client's own. */
  sharedWith: string;
  sha256: string;
  consentSha256: string;
  /** The word of the PDF that was typed; empty on paper. */
  formatWord: string;
  /** The drawn signature as the text of its strokes; null where the typed name is the signature, or once it was erased. */
  strokes: string | null;
  interpreter: string | null;
  /** A signature on paper: SHA-256 of its photo, and where the paper is kept. */
  photo: string | null;
  keptWhere: string;
  /** When it was signed and when it was recorded, each in words with its zone, and in UTC. */
  signedAt: string;
  recordedAt: string;
};

export type SigningRecord = {
  title: string;
  sha256: string;
  issuedAt: string;
  sealedAt: string;
  consentText: string;
  proofs: readonly SigningProof[];
};

const METHODS: Record<SigningProof['method'], string> = {
  link: 'On a private link',
  on_site_device: "On the pair's device at the property",
  paper: 'On paper',
};

const howWords = ({ method, strokes }: SigningProof): string =>
  method === 'paper' ? METHODS.paper : `${METHODS[method]}, by ${strokes === null ? 'typing the name' : 'typing the name and drawing'}`;

type Pair = readonly [string, string];
const said = (name: string, value: string | null): Pair[] => (value === null || value === '' ? [] : [[name, value]]);

const paperPairs = ({ method, keptWhere, photo }: SigningProof): Pair[] =>
  method === 'paper' ? [...said('Paper kept at', keptWhere), ['Photo of the paper (SHA-256)', photo ?? 'none was taken']] : [];

export type AgreementFacts = { job: number; clients: readonly string[]; address: string; issuedAt: string; body: string };

export const agreementBlocks = ({ job, clients, address, issuedAt, body }: AgreementFacts): Block[] => [
  {
    kind: 'facts',
    pairs: [
      ['Between the firm and', clients.join(', ')],
      ['Property', address],
      ['Job', String(job)],
      ['Issued', issuedAt],
    ],
  },
  ...markdownBlocks(body),
];

/** Who signed what, when, how, in whose name; begins on a page of its own. */
export const signingRecord = (record: SigningRecord): Block[] => [
  { kind: 'new page' },
  { kind: 'heading', level: 2, words: 'Signing record' },
  {
    kind: 'facts',
    pairs: [
      ['Agreement', record.title],
      ['Issued', record.issuedAt],
      ['Sealed', record.sealedAt],
      ['Fingerprint of the words', record.sha256],
    ],
  },
  {
    kind: 'text',
    words:
      'The fingerprint is the SHA-256 of exactly the words that were shown, as text in UTF-8. Those words are attached to this file as agreement.txt. The firm answers on its page /verify which paper a fingerprint belongs to.',
    small: true,
  },
  ...record.proofs.flatMap(proofBlocks),
  ...(record.proofs.some(({ consentSha256 }) => consentSha256 !== '')
    ? [{ kind: 'heading', level: 3, words: 'Consent to electronic records, as shown' } as const, ...consentBlocks(record.consentText)]
    : []),
];

const consentBlocks = (text: string): Block[] =>
  markdownBlocks(text).map((block) => (block.kind === 'heading' ? { kind: 'text', words: block.words } : block));

const proofBlocks = (proof: SigningProof, at: number): Block[] => [
  { kind: 'heading', level: 3, words: `Signature ${at + 1}: ${proof.signer}` },
  {
    kind: 'facts',
    pairs: [
      ['Signed as', proof.signedAs ?? 'erased'],
      ['Capacity', CAPACITIES[proof.capacity]],
      ...said('Authority', proof.authority),
      ...said('Paper of authority (SHA-256)', proof.authorityFile),
      ...said('Read with the interpreter', proof.interpreter),
      ['How', howWords(proof)],
      ...paperPairs(proof),
      ['Signed', proof.signedAt],
      ['Recorded', proof.recordedAt],
      ['Device', proof.device],
      ['Network address (digest)', proof.ipHash === '' ? 'none' : proof.ipHash],
      ...said('Private link (SHA-256)', proof.linkHash),
      ...said('The link went to an address that is also of', proof.sharedWith),
      ['Words signed (SHA-256)', proof.sha256],
      ['Consent shown (SHA-256)', proof.consentSha256 === '' ? 'none asked on paper' : proof.consentSha256],
      ...said('Word of the file typed', proof.formatWord),
    ],
  },
  ...drawingBlocks(proof),
];

/** The drawn signature as it was drawn. */
function drawingBlocks({ strokes, signer }: SigningProof): Block[] {
  const drawn = strokes === null ? null : readStrokes(strokes);
  if (!drawn?.ok) return [];
  return [
    { kind: 'text', words: 'Drawn signature:' },
    {
      kind: 'drawing',
      path: pathOf(drawn.value),
      size: [FIELD.width, FIELD.height],
      alt: `Drawn signature of ${signer}`,
      width: 240,
    },
  ];
}
