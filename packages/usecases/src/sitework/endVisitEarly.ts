// Says that a visit ended otherwise than complete: at the door before it was started, or part-way. By the pair on site, or by the office.
import { EARLY_ENDINGS } from '@backsight/domain/jobs/deskRules';
import { chargeOf } from '@backsight/domain/shared/charge';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { EndingCommand } from '@backsight/domain/sitework/ending';
import { lockRecord } from '@backsight/store/sitework';
import { findEnding } from '@backsight/store/sitework/ending';
import { readStoredFile, storeFile } from '@backsight/store/sitework/files';
import { noteFile } from '@backsight/store/sitework/report';
import { findVisit, lockVisit, type VisitRow } from '@backsight/store/sitework/visit';
import type { Reader } from '@backsight/store/database';
import { findFeeLines, findJob } from '@backsight/store/jobs/jobs';
import { keepText } from '@backsight/store/text';
import { deskRulesOf } from '../jobs/steps/deskRules.ts';
import { feeOf } from '../jobs/steps/feeLines.ts';
import type { Act, Actor, Work } from '../run.ts';
import { deviceTime } from './steps/deviceTime.ts';
import { endEarly } from './steps/endEarly.ts';
import { isMember, loadRecord } from './steps/loadRecord.ts';
import { photoOf } from './steps/photo.ts';
import { mayDecide } from './steps/mayDecide.ts';

export type EndEarlyInput = Omit<EndingCommand, 'endedAt'> & {
  visitId: string;
  endedAt: string;
  note: string;
  photo: { name: string; base64: string } | null;
  directory: string;
};
type Ended = { id: string; jobId: string; notReached: number };

/** `directory`: where the service keeps its files. Refusals: visit-is, ended-ahead, ended-before-start, ended-inside, waiting-missing, report-without-record. */
export const endVisitEarly: Act<EndEarlyInput, Ended> = { operation: 'sitework.end-early', run: end };

async function end(work: Work, input: EndEarlyInput): Promise<Outcome<Ended>> {
  await lockVisit(work.tx, input.visitId);
  const visit = await findVisit(work.tx, input.visitId);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  if (!isMember(visit, work.actor) && !mayDecide(work.actor)) return refuse('not-on-this-visit');
  const locked = visit.recordId === null ? null : await lockRecord(work.tx, visit.recordId);
  const record = locked && (await loadRecord(work.tx, locked.id));
  const photo = input.photo && photoOf(input.photo.base64);
  if (photo && !photo.ok) return photo;
  const textId = input.note === '' ? null : await keepText(work.tx, work.newId(), input.note, work.now);
  const photoSha256 = photo ? await keepPhoto(work, input, photo.value) : null;
  const { kind, waitedMinutes, callsMade, reportOwed } = input;
  const ended = await endEarly(work, visit, record, {
    kind,
    waitedMinutes,
    callsMade,
    reportOwed,
    endedAt: deviceTime(input.endedAt, work.now),
    textId,
    photoSha256,
  });
  return ended.ok ? accept({ id: visit.id, jobId: visit.jobId, notReached: ended.value.notReached }) : ended;
}

async function keepPhoto(work: Work, input: EndEarlyInput, { bytes, mediaType }: { bytes: Buffer; mediaType: string }): Promise<string> {
  const sha256 = await storeFile(input.directory, bytes);
  await noteFile(work.tx, { sha256, bytes: bytes.length, name: input.photo!.name, mediaType, at: work.now });
  return sha256;
}

/** The photo that was taken at the door, for the people of the visit and the office. */
export async function readEndingPhoto(
  reader: Reader,
  input: { visitId: string; actor: Actor; directory: string },
): Promise<Outcome<{ bytes: Buffer; mediaType: string }>> {
  const visit = await findVisit(reader, input.visitId);
  const ending = visit && (await findEnding(reader, visit.id));
  if (!ending?.photoSha256) return refuse('not-found', { thing: 'photo' });
  if (!isMember(visit!, input.actor) && !mayDecide(input.actor)) return refuse('not-on-this-visit');
  const bytes = await readStoredFile(input.directory, ending.photoSha256);
  return accept({ bytes, mediaType: bytes[0] === 0x89 ? 'image/png' : 'image/jpeg' });
}

/** What the rule of the firm charges for each way of ending; a further visit beside the one that the job is for costs nothing. */
async function chargesOf(reader: Reader, { jobId, kind, jobKind }: VisitRow) {
  const job = (await findJob(reader, jobId))!;
  const { endings } = await deskRulesOf(reader, job);
  const feeCents = kind === jobKind ? feeOf(await findFeeLines(reader, jobId)) : 0;
  const charges = EARLY_ENDINGS.map((one) => ({ kind: one, percent: endings[one], cents: chargeOf(feeCents, endings[one]).cents }));
  return { feeCents, charges: feeCents > 0 ? charges : [] };
}

/** The visit as the form of its ending shows it, for those who may record one. */
export async function readBeforeEnding(reader: Reader, input: { visitId: string; actor: Actor }) {
  const visit = await findVisit(reader, input.visitId);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  if (!isMember(visit, input.actor) && !mayDecide(input.actor)) return refuse('not-on-this-visit');
  const { id, jobId, jobNumber, address, town, state } = visit;
  return accept({
    id,
    jobId,
    jobNumber,
    address,
    town,
    state,
    startsAt: visit.startsAt.toISOString(),
    endsAt: visit.endsAt.toISOString(),
    recordOpen: visit.recordState === 'open',
    endedAs: (await findEnding(reader, id))?.kind ?? null,
    ...(await chargesOf(reader, visit)),
  });
}
