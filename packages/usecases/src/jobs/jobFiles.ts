// The files that were made of a job: listed, said to be reviewed, and handed out; marked on every page until then.
import { markedCopy } from '@backsight/documents/pdf/marked';
import { REASONS } from '@backsight/domain/jobs/file';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { dayIn, type Reader } from '@backsight/store/database';
import { filesOfJob, findFileFacts, findJobFile, saveFileReview } from '@backsight/store/jobs/file';
import { readStoredFile } from '@backsight/store/sitework/files';
import type { Act } from '../run.ts';
import { itemsOf } from './steps/fileItems.ts';

/** Stands on every page until an owner says that the file was reviewed. */
const NOT_REVIEWED = "For the attorney's review. It does not leave the firm yet.";

/** The newest first. */
export const readJobFiles = async (reader: Reader, jobId: string) =>
  (await filesOfJob(reader, jobId)).map(({ recordedAt, jobId: _, ...row }) => ({ ...row, recordedAt: recordedAt.toISOString() }));

/** What an owner may hold back by hand, with reasons that are often given. Refusals: not-found. */
export async function readFileItems(reader: Reader, jobId: string) {
  const facts = await findFileFacts(reader, jobId);
  return facts ? accept({ reasons: [...REASONS], items: await itemsOf(reader, facts, true) }) : refuse('not-found', { thing: 'job' });
}

/** A file byte for byte once it was reviewed, before that a copy that says so; one with opinions is for owners alone. */
export async function readJobFile(reader: Reader, ask: { id: string; isOwner: boolean; directory: string }) {
  const file = await findJobFile(reader, ask.id);
  if (!file) return refuse('not-found', { thing: 'file' });
  if (file.opinions && !ask.isOwner) return refuse('not-allowed');
  const bytes = await readStoredFile(ask.directory, file.fileSha256);
  return accept({ name: file.name, bytes: file.review ? bytes : await markedCopy(bytes, NOT_REVIEWED) });
}

type Review = { id: string; reviewer: string; reviewedOn: string };

/** An owner says who reviewed the file and when: from then on it goes out as it was made. Refusals: not-found, file-reviewed. */
export const reviewJobFile: Act<Review, { id: string }> = {
  operation: 'jobs.review-file',
  run: async (work, { id, reviewer, reviewedOn }) => {
    const file = await findJobFile(work.tx, id);
    if (!file || work.actor.kind !== 'person') return refuse('not-found', { thing: 'file' });
    if (file.review) return refuse('file-reviewed');
    await saveFileReview(work.tx, { fileId: id, reviewer, reviewedOn: dayIn(reviewedOn), actorId: work.actor.id, recordedAt: work.now });
    await work.did('job', file.jobId, { fileReviewed: file.fileSha256, reviewedOn });
    return accept({ id });
  },
};
