// Places a visit of a job, whoever asks: reserves the start and writes the visit with its people and kit.
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import type { OfficeRow } from '@backsight/store/jobs/catalog';
import { insertVisit, type OutsidePart } from '@backsight/store/schedule/visits';
import type { Work } from '../../run.ts';
import type { Demand } from './demand.ts';
import { reserveStart, type Reserved, type Start } from './reserveStart.ts';

export type PlacedVisit = { visitId: string; startsAt: string; endsAt: string; first: string; second: string | null };

/** The parts of the outside providers, as they are written. */
export const partsOf = ({ outside }: Pick<Reserved, 'outside'>): OutsidePart[] =>
  outside.map(({ service, provider: { id, offsetMinutes, minutes } }) => ({ service, providerId: id, offsetMinutes, minutes }));

/** Writes a visit at a start that was reserved in this transaction; `holdEndsAt` null books it. */
export async function writeVisit(
  work: Work,
  v: { jobId: string; demand: Demand; reserved: Reserved; holdEndsAt: Date | null; promised?: { from: Date; until: Date } | null },
): Promise<PlacedVisit> {
  const { demand, reserved } = v;
  const id = work.newId();
  await insertVisit(work.tx, {
    id,
    jobId: v.jobId,
    kind: demand.kind,
    crewSize: demand.crewSize,
    state: v.holdEndsAt === null ? 'booked' : 'held',
    startsAt: reserved.startsAt,
    endsAt: reserved.endsAt,
    holdEndsAt: v.holdEndsAt,
    reportMinutes: demand.reportMinutes,
    first: reserved.first,
    second: reserved.second,
    kit: demand.kit,
    because: await reserved.because(),
    walkThroughMinutes: demand.walkThroughMinutes ?? 0,
    outside: partsOf(reserved),
    promised: v.promised ?? null,
    recordedAt: work.now,
  });
  return {
    visitId: id,
    startsAt: reserved.startsAt.toISOString(),
    endsAt: reserved.endsAt.toISOString(),
    first: reserved.first,
    second: reserved.second,
  };
}

/** Places a visit of an existing job, or refuses with the next best choices. */
export async function placeVisit(
  work: Work,
  v: { jobId: string; office: OfficeRow; demand: Demand; start: Start; holdEndsAt: Date | null },
): Promise<Outcome<PlacedVisit>> {
  const reserved = await reserveStart(work, v);
  return reserved.ok ? accept(await writeVisit(work, { ...v, reserved: reserved.value })) : reserved;
}
