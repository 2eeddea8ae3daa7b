// Who may make the file of a job for a request of records, and what is never put into one.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export const SHORTEST_REASON = 10;

/** Opinions leave only by an owner's choice, and it is written down why the file is made. */
export function mayMakeFile(c: { isOwner: boolean; opinions: boolean; reason: string }): Outcome<null> {
  if (c.opinions && !c.isOwner) return refuse('file-opinions-owner', {}, 'opinions');
  return c.reason.trim().length < SHORTEST_REASON ? refuse('reason-too-short', {}, 'reason') : accept(null);
}

export type HeldBack = { what: string; why: string };

/** Something that an owner may hold back by hand: `key` names it, `what` says it in the list of what is held back. */
export type FileItem = { key: string; what: string };
/** Why, in words that the file shows; those of REASONS are offered. */
export type Withheld = { key: string; why: string };

export const REASONS: readonly string[] = [
  'Words between the firm and its attorney: privileged.',
  'Personal data of another client.',
  "Letters of the insurer: the insurer's consent is not on file.",
];

/** What an owner holds back, in words; refused where one is not of this job or has no reason. Refusals: file-withhold-owner, reason-too-short, not-found. */
export function withhold(items: readonly FileItem[], asked: readonly Withheld[], isOwner: boolean): Outcome<HeldBack[]> {
  if (asked.length > 0 && !isOwner) return refuse('file-withhold-owner', {}, 'withheld');
  const held: HeldBack[] = [];
  for (const [at, { key, why }] of asked.entries()) {
    const item = items.find((one) => one.key === key);
    if (!item) return refuse('not-found', { thing: 'item of the file' }, `withheld.${at}`);
    if (why.trim().length < SHORTEST_REASON) return refuse('reason-too-short', {}, `withheld.${at}.why`);
    held.push({ what: item.what, why: why.trim() });
  }
  return accept(held);
}

/** Never in a file, whoever makes it. */
const NEVER: readonly HeldBack[] = [
  { what: 'Private links in mails', why: 'Whoever has one can open and sign the agreement.' },
  { what: 'How to get in, with codes', why: 'Safety of the house.' },
  { what: 'Network addresses of those who signed', why: 'Personal data; the signing record holds their digests.' },
  { what: "Mail to the firm's own people", why: 'Inside business.' },
  { what: 'Files of other clients at the same property', why: 'Theirs alone.' },
  { what: 'The book of procedures', why: 'Internal; ask the attorney whether it belongs to what was asked for.' },
];

export type HeldFacts = {
  isOwner: boolean;
  opinions: boolean;
  callbacks: number;
  ownerOnly: number;
  unsealed: number;
  unreadable: readonly string[];
};

/** What is held back from one file, and why. What only the owner sees is counted for the owner alone. */
export const heldBack = (f: HeldFacts): HeldBack[] => [
  ...(f.callbacks > 0 && !f.opinions
    ? [
        {
          what: 'Conclusions, accounts of the pair, reasons of remedies, money set aside and paid for callbacks',
          why: 'Opinions of the firm: an owner chooses to put them in, with the attorney.',
        },
      ]
    : []),
  ...(f.isOwner ? [] : [{ what: 'The site record and its photos', why: 'A work paper: it goes out only by an act of an owner.' }]),
  ...(f.isOwner && f.ownerOnly === 0
    ? []
    : [
        f.isOwner
          ? { what: `Matters for the owner alone (${f.ownerOnly})`, why: 'Legal papers: the attorney has them from the owner.' }
          : { what: 'Matters for the owner alone, if there are any', why: 'Only an owner sees them.' },
      ]),
  ...(f.unsealed > 0 ? [{ what: `Site records that are not sealed yet (${f.unsealed})`, why: 'They may still change.' }] : []),
  ...f.unreadable.map((name) => ({ what: name, why: 'The file is not at its place or does not fit its fingerprint.' })),
  ...NEVER,
];
