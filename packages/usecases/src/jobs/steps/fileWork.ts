// The parts of a job's file that come from the work: site record, photos, reports, callbacks.
import type { FilePart } from '@backsight/documents/papers/jobFile';
import { reportBlocks } from '@backsight/documents/papers/report';
import { lookAt } from '@backsight/documents/pdf/takenPages';
import type { Block } from '@backsight/documents/pdf/content';
import { CIRCUMSTANCES, ERROR_KINDS } from '@backsight/domain/callbacks/causes';
import { CAUSES, KINDS, STATES, type Cause, type Kind } from '@backsight/domain/callbacks/words';
import { formatUsd } from '@backsight/domain/shared/money';
import type { ReportBody } from '@backsight/domain/sitework/report';
import { conclusionsOf, eventsOf, findCallback, remediesOf, wordsOf } from '@backsight/store/callbacks';
import { moneyOf } from '@backsight/store/callbacks/money';
import { accountsOf, counselMarks } from '@backsight/store/callbacks/opinions';
import type { Reader } from '@backsight/store/database';
import type { FileFacts } from '@backsight/store/jobs/file';
import { readStoredFile } from '@backsight/store/sitework/files';
import { reportsOfJob, type ReportJob, type ReportRow } from '@backsight/store/sitework/report';
import { CONFIDENTIAL, OWNERS_ALONE } from '../../callbacks/steps/confidential.ts';
import { reportSources } from '../../sitework/steps/reportSource.ts';
import { drawnUp, table, type sayIn } from './fileParts.ts';

type Say = ReturnType<typeof sayIn>;
export type Gathered = { parts: FilePart[]; unreadable: string[] };

/** What was recorded at the property, step by step; photos as their copies, which hold no place, and spoken notes by their fingerprints. */
export async function recordParts(reader: Reader, job: ReportJob, facts: FileFacts, say: Say, directory: string): Promise<Gathered> {
  const sources = await reportSources(reader, job);
  const lines = sources.map((s) => [s.system, s.item === null ? s.title : `${s.title} (${s.item})`, s.answer, s.note ?? '']);
  const photos: Block[] = [];
  const unreadable: string[] = [];
  for (const { sha256, seconds, takenAt, takenBy, near, step } of facts.photos) {
    const taken = `${step}, ${say(takenAt)}, by ${takenBy}`;
    if (seconds !== null) {
      photos.push({
        kind: 'text',
        words: `Spoken note of ${seconds} seconds, ${taken}. SHA-256: ${sha256}. It is listened to on the site record.`,
      });
      continue;
    }
    const about = `${taken}, near the property: ${near}. SHA-256 of the copy: ${sha256}`;
    const bytes = await readStoredFile(directory, sha256).catch(() => null);
    if (bytes === null) unreadable.push(`Photo ${about}`);
    else photos.push({ kind: 'picture', png: new Uint8Array(bytes), alt: `Photo of ${step}`, width: 300, caption: about });
  }
  return {
    parts: [
      drawnUp('Site record, a work paper of the firm', table(['System', 'What', 'Recorded', 'Note'], lines)),
      ...(photos.length > 0 ? [{ title: 'Photos and spoken notes', sha256: null, blocks: photos }] : []),
    ],
    unreadable,
  };
}

const drafted = (r: ReportRow, job: ReportJob): FilePart => ({
  title: `Report, version ${r.version}`,
  sha256: r.sealed?.sha256 ?? null,
  blocks: reportBlocks({
    ...(r.body as unknown as ReportBody),
    ...{ job: job.number, address: job.address, version: r.version, inspectedBy: r.inspectedBy, preparedBy: r.preparedByName },
    ...{ inspectedOn: r.inspectedOn, reportOn: r.reportOn, revisedOn: r.revisedOn },
  }),
});

const notNumbered = (why: string): string =>
  `The file ${why}, so its pages are not shown and not numbered here: open it from the attachments.`;

/** A report made elsewhere: its pages are shown and numbered within the file, and the original goes along as it is. */
async function takenIn(r: ReportRow, bytes: Uint8Array | null): Promise<FilePart> {
  const title = `Report, version ${r.version}, made elsewhere`;
  const sha256 = r.fileSha256!;
  if (bytes === null) return { title, sha256, blocks: [{ kind: 'text', words: 'The file is not at its place: see what is held back.' }] };
  const name = r.fileName ?? 'report.pdf';
  const attached = { name, says: `Report taken in, version ${r.version}, SHA-256 ${sha256}`, bytes, type: 'application/pdf' };
  const looked = await lookAt(bytes);
  if (!looked.ok)
    return {
      title: `${title} (the file ${looked.why}: not numbered)`,
      sha256,
      attached,
      blocks: [{ kind: 'text', words: notNumbered(looked.why) }],
    };
  const { pages } = looked;
  const words = `The report was taken in as a file of ${pages.length === 1 ? 'one page' : `${pages.length} pages`}. They follow, numbered within this file; the original is attached byte for byte, with notes and links that lie on top of its pages.`;
  return {
    title,
    sha256,
    attached,
    blocks: [
      { kind: 'text', words },
      ...pages.map((size, at): Block => ({ kind: 'taken page', file: bytes, at, size, alt: `${name}, page ${at + 1} of ${pages.length}` })),
    ],
  };
}

/** `left`: keys of what is held back by hand. */
export async function reportParts(reader: Reader, job: ReportJob, directory: string, left: ReadonlySet<string>): Promise<Gathered> {
  const gathered: Gathered = { parts: [], unreadable: [] };
  for (const r of (await reportsOfJob(reader, job.jobId)).toReversed()) {
    if (left.has(`report ${r.id}`)) continue;
    const bytes = r.fileSha256 ? await readStoredFile(directory, r.fileSha256).catch(() => null) : null;
    if (r.fileSha256 && bytes === null) gathered.unreadable.push(`Report taken in, version ${r.version}, SHA-256 ${r.fileSha256}`);
    gathered.parts.push(r.source === 'taken_in' ? await takenIn(r, bytes && new Uint8Array(bytes)) : drafted(r, job));
  }
  return gathered;
}

/** The facts of each callback; conclusions, reasons and money only where an owner chose so. */
export async function callbackParts(reader: Reader, facts: FileFacts, opinions: boolean, say: Say): Promise<FilePart[]> {
  const parts: FilePart[] = [];
  for (const { id, number, kind, ownerOnly } of facts.callbacks) {
    const callback = ownerOnly ? null : await findCallback(reader, id);
    if (!callback) continue;
    const events = (await eventsOf(reader, id)).filter(
      (e) => (opinions || !CONFIDENTIAL.includes(e.kind)) && !OWNERS_ALONE.includes(e.kind),
    );
    parts.push(
      drawnUp(`Callback ${number}: ${KINDS[kind as Kind]}`, [
        {
          pairs: [
            ['Received', say(callback.receivedAt.toISOString())],
            ['State', STATES[callback.state]],
            ['What was said', (await wordsOf(reader, callback.textId)) ?? '(erased)'],
          ],
        },
        ...table(
          ['When', 'What', 'By', 'Words'],
          events.map((e) => [
            say(e.happenedAt.toISOString()),
            e.kind.replaceAll('_', ' '),
            e.actor ?? 'the service',
            e.kind === 'received' ? '' : (e.words ?? ''),
          ]),
        ),
        ...(opinions ? await opinionParts(reader, id, say) : []),
      ]),
    );
  }
  return parts;
}

async function opinionParts(reader: Reader, id: string, say: Say) {
  const [conclusions, remedies, money] = [await conclusionsOf(reader, id), await remediesOf(reader, id), await moneyOf(reader, id)];
  const [accounts, marks] = [await accountsOf(reader, id, null), await counselMarks(reader, id)];
  return [
    ...marks.map((mark) => ({
      text: `The opinions that follow are marked as prepared at the request of counsel, ${mark.counsel ?? '(erased)'}, of ${mark.requestedOn}. A mark alone creates no privilege.`,
    })),
    ...table(
      ['Conclusion', 'At the step', 'What contributed', 'By', 'Words'],
      conclusions.map((c) => [
        CAUSES[c.cause as Cause] ?? c.cause,
        [c.stepTitle ?? c.stepKey ?? '', c.errorKind ? ERROR_KINDS[c.errorKind] : ''].filter((word) => word !== '').join(': '),
        c.circumstances.map((one) => CIRCUMSTANCES[one]).join(', '),
        `${c.by}${c.needsConfirmation ? `, who was on the job${c.confirmedBy ? `; confirmed by ${c.confirmedBy}` : ', not confirmed'}` : ''}`,
        [c.words ?? '', c.confirmedWords ?? ''].filter((word) => word !== '').join(' / '),
      ]),
    ),
    ...table(
      ['Account of', 'Given', 'Seen', 'Done'],
      accounts.map((a) => [a.name, say(a.at.toISOString()), a.seen ?? '(erased)', a.did ?? '(erased)']),
    ),
    ...table(
      ['Remedy', 'State', 'Amount'],
      remedies.map((r) => [r.kind.replaceAll('_', ' '), r.state, formatUsd(r.cents)]),
      [2],
    ),
    {
      pairs: [
        ['Set aside', formatUsd(money.reservedCents)],
        ['Paid', formatUsd(money.paidCents)],
      ] as const,
    },
  ];
}
