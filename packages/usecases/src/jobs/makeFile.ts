// One act makes a file of everything of a job for a request of records or a dispute: for an attorney to review before it leaves.
import { createHash } from 'node:crypto';
import { attachedTo, jobFileBlocks, markOf, type FilePart } from '@backsight/documents/papers/jobFile';
import { withTakenPages } from '@backsight/documents/pdf/takenPages';
import { written, type Written } from '@backsight/documents/pdf/write';
import { heldBack, mayMakeFile, withhold, type HeldBack, type Withheld } from '@backsight/domain/jobs/file';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { sealedPapersOfJob } from '@backsight/store/agreements/sealed';
import type { Reader } from '@backsight/store/database';
import { findEvidence } from '@backsight/store/fees/evidence';
import { findFileFacts, saveJobFile, type FileFacts } from '@backsight/store/jobs/file';
import { storeFile } from '@backsight/store/sitework/files';
import { findReportJob, noteFile } from '@backsight/store/sitework/report';
import { letterhead } from '../firm/steps/letterhead.ts';
import type { Act, Work } from '../run.ts';
import { itemsOf, without } from './steps/fileItems.ts';
import { agreementParts, bookingParts, saidParts, sayIn, sealedParts, visitParts } from './steps/fileParts.ts';
import { callbackParts, recordParts, reportParts, type Gathered } from './steps/fileWork.ts';

/** `opinions`: an owner chose to put conclusions and money of callbacks in. `directory`: where the service keeps its files. */
type Input = {
  id: string;
  jobId: string;
  forWhom: string;
  reason: string;
  opinions: boolean;
  /** What an owner holds back by hand. */
  withheld: readonly Withheld[];
  directory: string;
};
type Made = { id: string; sha256: string; pages: number };

/** Refusals: file-opinions-owner, reason-too-short. */
export const makeJobFile: Act<Input, Made> = { operation: 'jobs.make-file', run: make };

async function make(work: Work, input: Input): Promise<Outcome<Made>> {
  const { tx, actor, now } = work;
  if (actor.kind !== 'person') return refuse('not-allowed');
  const isOwner = actor.roles.includes('owner');
  const may = mayMakeFile({ isOwner, opinions: input.opinions, reason: input.reason });
  if (!may.ok) return may;
  const facts = await findFileFacts(tx, input.jobId);
  if (!facts) return refuse('not-found', { thing: 'job' });
  const byHand = withhold(await itemsOf(tx, facts, isOwner), input.withheld, isOwner);
  if (!byHand.ok) return byHand;
  const left = new Set(input.withheld.map(({ key }) => key));
  const gathered = await gather(tx, without(facts, left), { ...input, isOwner, left });
  const open = (await findReportJob(tx, input.jobId))!.visits.filter(({ recordState }) => recordState === 'open').length;
  const held: HeldBack[] = [
    ...byHand.value,
    ...heldBack({
      ...{ isOwner, opinions: input.opinions, unsealed: isOwner ? open : 0, unreadable: gathered.unreadable },
      callbacks: facts.callbacks.filter(({ ownerOnly }) => !ownerOnly).length,
      ownerOnly: facts.callbacks.filter(({ ownerOnly }) => ownerOnly).length,
    }),
  ];
  const file = await drawUp(work, input, facts, gathered, held);
  const bytes = Buffer.from(file.bytes);
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const name = `file-job-${facts.number}.pdf`;
  await storeFile(input.directory, bytes);
  await noteFile(tx, { sha256, mediaType: 'application/pdf', bytes: bytes.length, name, at: now });
  await saveJobFile(tx, {
    ...{ id: input.id, jobId: input.jobId, forWhom: input.forWhom, reason: input.reason.trim(), opinions: input.opinions },
    ...{ name, fileSha256: sha256, pages: file.pages, heldBack: held, madeBy: actor.id, recordedAt: now },
    parts: gathered.parts.map(({ title, sha256: of }, at) => ({ title, page: file.marks.get(markOf(at)) ?? 0, sha256: of })),
  });
  await work.did('job', input.jobId, { file: sha256, pages: file.pages, opinions: input.opinions, withheld: input.withheld.length });
  return accept({ id: input.id, sha256, pages: file.pages });
}

async function gather(reader: Reader, facts: FileFacts, ask: Input & { isOwner: boolean; left: ReadonlySet<string> }): Promise<Gathered> {
  const say = sayIn(facts.zone);
  const all = await findEvidence(reader, ask.jobId);
  const evidence = {
    ...all,
    agreements: all.agreements.filter(({ id }) => !ask.left.has(`agreement ${id}`)),
    contacts: all.contacts.filter(({ id }) => !ask.left.has(`contact ${id}`)),
  };
  const job = (await findReportJob(reader, ask.jobId))!;
  const sealed = (await sealedPapersOfJob(reader, ask.jobId)).filter(
    ({ agreementId, reportId }) => !ask.left.has(`agreement ${agreementId}`) && !ask.left.has(`report ${reportId}`),
  );
  const nothing: Gathered = { parts: [], unreadable: [] };
  const record = ask.isOwner ? await recordParts(reader, job, facts, say, ask.directory) : nothing;
  const reports = await reportParts(reader, job, ask.directory, ask.left);
  const parts: FilePart[] = [
    ...bookingParts(facts, say),
    ...agreementParts(evidence, say),
    ...visitParts(evidence, say),
    ...record.parts,
    ...reports.parts,
    ...sealedParts(sealed, say),
    ...saidParts(facts, evidence, say),
    ...(await callbackParts(reader, facts, ask.opinions, say)),
  ];
  return { parts, unreadable: [...record.unreadable, ...reports.unreadable] };
}

/** Written twice: the contents know the pages only once everything has its place. */
async function drawUp(
  work: Work,
  { jobId, forWhom, reason }: Input,
  facts: FileFacts,
  { parts }: Gathered,
  held: ReturnType<typeof heldBack>,
): Promise<Written> {
  const head = await letterhead(work.tx, work.now, jobId);
  const about = [
    ['Job', `${facts.number}, ${facts.address}`],
    ['Made for', forWhom],
    ['Why', reason.trim()],
    ['Made', sayIn(facts.zone)(work.now.toISOString())],
  ] as const;
  const once = (pages: readonly number[]): Promise<Written> =>
    written({
      ...head,
      ...{
        title: `File of job ${facts.number}`,
        foot: `File of job ${facts.number}`,
        attached: attachedTo(parts),
      },
      blocks: jobFileBlocks({ facts: about, parts, heldBack: held, pages }),
    });
  const first = await once([]);
  const second = await once(parts.map((_, at) => first.marks.get(markOf(at)) ?? 0));
  return { ...second, bytes: await withTakenPages(second.bytes, second.taken) };
}
