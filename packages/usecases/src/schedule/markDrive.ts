// Records that somebody set out to a visit or arrived there. A correction is one more mark; the newest counts.
import { mayMark, type MarkKind } from '@backsight/domain/schedule/drive';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { addMark, findDriveVisit, originOf, standingMarks } from '@backsight/store/schedule/drives';
import type { Act, Work } from '../run.ts';
import { startOfDay } from './steps/loadWorld.ts';

export type MarkInput = { id: string; visitId: string; personId: string; kind: MarkKind; at: string };

export const markDrive: Act<MarkInput, { id: string }> = { operation: 'schedule.mark-drive', run: mark };

async function mark(work: Work, { id, visitId, personId, kind, at }: MarkInput): Promise<Outcome<{ id: string }>> {
  const visit = await findDriveVisit(work.tx, visitId);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  const { actor } = work;
  const office = actor.kind === 'person' && actor.roles.some((role) => role !== 'inspector');
  if (actor.kind !== 'person' || !visit.members.includes(personId) || (actor.id !== personId && !office))
    return refuse('not-on-this-visit');
  const marks = (await standingMarks(work.tx, [visitId])).filter((one) => one.personId === personId);
  const timeOf = (wanted: MarkKind) => marks.find((one) => one.kind === wanted)?.at ?? null;
  const times = { setOut: timeOf('set_out'), arrived: timeOf('arrived') };
  const fits = mayMark({ state: visit.state, startsAt: visit.startsAt, times }, { kind, at: new Date(at) }, work.now);
  if (!fits.ok) return fits;
  const dayStart = startOfDay(wallTime(visit.startsAt, visit.zone).day, visit.zone);
  const origin = kind === 'set_out' ? await originOf(work.tx, { visitId, personId, startsAt: visit.startsAt, dayStart }) : null;
  await addMark(work.tx, {
    id,
    visitId,
    personId,
    kind,
    at: new Date(at),
    fromLat: origin?.lat ?? null,
    fromLon: origin?.lon ?? null,
    recordedBy: actor.id,
    recordedAt: work.now,
  });
  const before = kind === 'set_out' ? times.setOut : times.arrived;
  await work.did('visit', visitId, { mark: kind, personId, at, ...(before ? { insteadOf: before.toISOString() } : {}) });
  return accept({ id });
}
