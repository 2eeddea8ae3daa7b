// The parts of the file of a job, in the order in which things happened: booking, agreements, visits, report, what was said, money, callbacks.
import { DateTime } from 'luxon';
import { partBlocks, type PaperPart } from '@backsight/documents/papers/parts';
import type { FilePart } from '@backsight/documents/papers/jobFile';
import type { Block } from '@backsight/documents/pdf/content';
import { markdownBlocks } from '@backsight/documents/pdf/markdown';
import { formatUsd } from '@backsight/domain/shared/money';
import type { SealedPaperRow } from '@backsight/store/agreements/sealed';
import type { EvidenceFacts } from '@backsight/store/fees/evidence';
import type { FileFacts } from '@backsight/store/jobs/file';

const plain = (code: string): string => code.replaceAll('_', ' ');
/** An instant in words of the job's zone. */
export const sayIn =
  (zone: string) =>
  (instant: string | null): string =>
    instant === null ? '' : DateTime.fromISO(instant, { zone }).setLocale('en-US').toFormat('LLL d, yyyy, h:mm a ZZZZ');
type Say = ReturnType<typeof sayIn>;

export const drawnUp = (title: string, parts: readonly PaperPart[]): FilePart => ({
  title,
  sha256: null,
  blocks: parts.flatMap(partBlocks),
});
export const table = (heads: string[], rows: string[][], amounts: number[] = []): PaperPart[] =>
  rows.length > 0 ? [{ table: { heads, rows, amounts } }] : [];

export const bookingParts = (f: FileFacts, say: Say): FilePart[] => [
  drawnUp('The job as booked', [
    {
      pairs: [
        ['Property', f.address],
        ['Services', f.services.join(', ')],
      ],
    },
    ...table(
      ['Name', 'As', 'E-mail', 'Phone'],
      f.parties.map((p) => [p.name, p.roles, p.email ?? '', p.phone ?? '']),
    ),
    ...table(
      ['Fee', 'Why', 'Amount'],
      f.feeLines.map((l) => [l.withdrawn ? `${l.label} (taken out)` : l.label, l.reason, formatUsd(l.cents)]),
      [2],
    ),
  ]),
  drawnUp(
    'What happened to the job',
    table(
      ['When', 'What', 'By', 'Words'],
      f.events.map((e) => [say(e.at), `${plain(e.kind)} (${plain(e.state)})`, e.by ?? 'the service', e.words ?? '']),
    ),
  ),
];

/** Each agreement word for word; its sealed file, where there is one, goes along byte for byte. */
export const agreementParts = (e: EvidenceFacts, say: Say): FilePart[] => [
  ...e.agreements.map((a): FilePart => ({
    title: `Agreement issued ${say(a.issuedAt)}${a.superseded ? ', superseded' : ''}`,
    sha256: a.sha256,
    blocks: markdownBlocks(a.body),
  })),
  drawnUp(
    'Signatures',
    table(
      ['Signed', 'By', 'How', 'Fingerprint of the words'],
      e.signatures.map((s) => [say(s.at), `${s.name} (${s.signer}, ${plain(s.capacity)})`, `${plain(s.method)}, ${s.device}`, s.sha256]),
    ),
  ),
];

export const sealedParts = (sealed: readonly SealedPaperRow[], say: Say): FilePart[] =>
  sealed.map(({ name, sha256, content, recordedAt }) => ({
    title: `Sealed ${say(recordedAt.toISOString())}`,
    sha256,
    attached: { name, says: `Sealed paper, SHA-256 ${sha256}`, bytes: content, type: 'application/pdf' },
    blocks: [
      {
        kind: 'text',
        words: `Sealed ${say(recordedAt.toISOString())}. It is attached to this file byte for byte; its words are shown in the parts of the agreement or the report.`,
      },
    ],
  }));

export const visitParts = (e: EvidenceFacts, say: Say): FilePart[] => [
  drawnUp(
    'Visits',
    table(
      ['Appointment', 'Pair', 'Record opened', 'Record sealed'],
      e.visits.map((v) => [
        `${say(v.startsAt)} (${plain(v.state)})`,
        v.pair ?? '',
        say(v.openedAt),
        v.sealedAt === null ? '' : `${say(v.sealedAt)}, ${v.seal}`,
      ]),
    ),
  ),
  drawnUp(
    'Report handed over',
    table(
      ['When', 'To', 'How', 'Version'],
      e.deliveries.map((d) => [say(d.at), d.to, plain(d.method), String(d.version)]),
    ),
  ),
];

const mailBlocks = (m: FileFacts['mails'][number], say: Say): Block[] => [
  { kind: 'heading', level: 3, words: m.subject },
  {
    kind: 'facts',
    pairs: [
      ['To', m.to],
      ['When', say(m.at)],
      ['State', m.state === 'sent' ? 'accepted by the mail server' : plain(m.state)],
    ],
  },
  ...m.body.split(/\n{2,}/).map((words) => ({ kind: 'text', words }) as const),
];

export const saidParts = (f: FileFacts, e: EvidenceFacts, say: Say): FilePart[] => [
  { title: 'Mail to people outside the firm', sha256: null, blocks: f.mails.flatMap((m) => mailBlocks(m, say)) },
  drawnUp(
    'Calls, texts and talks',
    table(
      ['When', 'With', 'How', 'What was said'],
      e.contacts.map((c) => [say(c.at), `${c.who}, by ${c.by}`, `${plain(c.channel)}, ${plain(c.outcome)}`, c.words ?? '']),
    ),
  ),
  drawnUp('Invoices and payments', [
    ...table(
      ['Invoice', 'State', 'Payer', 'Due', 'Total'],
      f.invoices.map((i) => [String(i.number ?? ''), plain(i.state), i.payer, i.dueOn, formatUsd(i.totalCents)]),
      [4],
    ),
    ...table(
      ['Invoice', 'Received', 'How', 'Amount'],
      f.payments.map((p) => [String(p.invoice ?? ''), p.receivedOn, `${plain(p.method)} ${p.reference}`.trim(), formatUsd(p.cents)]),
      [3],
    ),
  ]),
];
