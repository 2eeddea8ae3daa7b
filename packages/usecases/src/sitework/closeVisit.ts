// Ends a visit from its record: done to the end, or early. The record stays open until it is sealed.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { EndedAs } from '@backsight/domain/sitework/endedAs';
import { leftBehind } from '@backsight/domain/sitework/seal';
import { jobVisited } from '@backsight/domain/sitework/visit';
import { endRecord, lockRecord } from '@backsight/store/sitework';
import { setVisitState } from '@backsight/store/sitework/visit';
import type { Act, Work } from '../run.ts';
import { endEarly } from './steps/endEarly.ts';
import { isMember, leads, loadRecord, type LoadedRecord } from './steps/loadRecord.ts';
import { missedWalkThrough } from './steps/missedWalkThrough.ts';
import { moveJob } from './steps/moveJob.ts';
import { sealIfAsked } from './steps/sealWhole.ts';

type Closing = { recordId: string; endedAs: EndedAs; missedWalkThrough?: boolean };
type Closed = { id: string; endedAs: EndedAs; notReached: number };

/** `missedWalkThrough`: the client was expected and did not come, so that it is offered by phone. */
export const closeVisit: Act<Closing, Closed> = { operation: 'sitework.end', run: close };

async function close(work: Work, { recordId, endedAs, ...input }: Closing): Promise<Outcome<Closed>> {
  const locked = await lockRecord(work.tx, recordId);
  const loaded = locked && (await loadRecord(work.tx, recordId));
  if (!loaded || work.actor.kind !== 'person') return refuse('not-found', { thing: 'site record' });
  const { visit, record } = loaded;
  if (!isMember(visit, work.actor) && !leads(work.actor)) return refuse('not-on-this-visit');
  if (record.endedAs === 'complete' && endedAs === 'complete') return again(work, loaded, input);
  if (record.state === 'sealed') return refuse('record-sealed');
  if (record.endedAs !== null) return refuse('record-ended');
  const left = endedAs === 'complete' ? leftBehind(loaded.acts) : [];
  if (left.some(({ kind }) => kind === 'inside')) return refuse('still-inside');
  if (left.length > 0) return refuse('not-restored', { count: left.length });
  if (input.missedWalkThrough) await missedWalkThrough(work, visit);
  if (endedAs !== 'complete') {
    const said = { kind: endedAs, endedAt: work.now, waitedMinutes: null, callsMade: null, reportOwed: 'later' as const };
    const ended = await endEarly(work, visit, loaded, { ...said, textId: null, photoSha256: null });
    if (ended.ok) await sealIfAsked(work, recordId);
    return ended.ok ? accept({ id: recordId, endedAs, notReached: ended.value.notReached }) : ended;
  }
  await endRecord(work.tx, recordId, endedAs);
  await setVisitState(work.tx, visit.id, 'done');
  await moveJob(work, visit.jobId, 'visited', jobVisited, { visitId: visit.id, endedAs });
  await work.did('site-record', recordId, { endedAs, notReached: 0 });
  await sealIfAsked(work, recordId);
  return accept({ id: recordId, endedAs, notReached: 0 });
}

/** Both phones of the pair say so without signal: the second is as good as the first, and may know more of the walk-through. */
async function again(
  work: Work,
  { visit, record }: LoadedRecord,
  { missedWalkThrough: missed }: Partial<Closing>,
): Promise<Outcome<Closed>> {
  if (missed) await missedWalkThrough(work, visit);
  await work.did('site-record', record.id, { endedAs: record.endedAs, again: true });
  return accept({ id: record.id, endedAs: 'complete', notReached: 0 });
}
