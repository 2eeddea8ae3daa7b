// The agreement as a paper, and the record of its signing as the last pages of the signed one.
import { CAPACITIES, type Capacity } from '@backsight/domain/agreements/signers';
import type { Block } from '../pdf/content.ts';
import { markdownBlocks } from '../pdf/markdown.ts';

export type SigningProof = {
  signer: string;
  /** null once the words were erased. */
  signedAs: string | null;
  capacity: Capacity;
  authority: string;
  method: 'link' | 'on_site_device' | 'paper';
  device: string;
  /** Salted digest of the network address; empty where there was none. */
  ipHash: string;
  sha256: string;
  consentSha256: string;
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
  link: 'On a private link, by typing the name',
  on_site_device: "On the pair's device at the property",
  paper: 'On paper, kept by the firm',
};

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
      ...(proof.authority === '' ? [] : [['Authority', proof.authority] as const]),
      ['How', METHODS[proof.method]],
      ['Signed', proof.signedAt],
      ['Recorded', proof.recordedAt],
      ['Device', proof.device],
      ['Network address (digest)', proof.ipHash === '' ? 'none' : proof.ipHash],
      ['Words signed (SHA-256)', proof.sha256],
      ['Consent shown (SHA-256)', proof.consentSha256 === '' ? 'none asked on paper' : proof.consentSha256],
    ],
  },
];
