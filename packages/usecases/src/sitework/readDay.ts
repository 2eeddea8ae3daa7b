// My day: today's and tomorrow's visits of one person, with what to carry, how to get in and what is still to acknowledge.
import { shiftDay } from '@backsight/domain/shared/calendar';
import { mayCall } from '@backsight/domain/jobs/access';
import type { Reader } from '@backsight/store/database';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { placesOfVisits, standingMarks, type MarkRow } from '@backsight/store/schedule/drives';
import { accessOfJobs, visitsOfPerson, type VisitRow } from '@backsight/store/sitework/visit';
import { localDay } from '../firm/steps/localDay.ts';
import { zoneBeyond } from '../schedule/steps/zone.ts';
import { accessLines } from './steps/accessLines.ts';

type Asked = { personId: string; person: string; revisionId: string; title: string; number: number };

/** Visits of the person, in order. What was agreed about getting in is shown to those who go there, nobody else. */
export async function readDay(reader: Reader, input: { personId: string; now: Date }) {
  const { today } = await localDay(reader, input.now);
  const tomorrow = shiftDay(today, 1);
  const visits = await visitsOfPerson(reader, input.personId, today, tomorrow);
  const access = new Map(
    (
      await accessOfJobs(
        reader,
        visits.map(({ jobId }) => jobId),
      )
    ).map((row) => [row.jobId, row]),
  );
  const asked = await missingAcknowledgements(reader, input.now);
  const ids = visits.map(({ id }) => id);
  const marks = await standingMarks(reader, ids);
  const places = await placesOfVisits(reader, ids);
  const beyond = (id: string) =>
    places.filter(({ visitId }) => visitId === id).map((place) => zoneBeyond(place, place.zone, today))[0] ?? null;
  return {
    today,
    tomorrow,
    visits: visits.map((visit) => ({
      ...visitJson(visit),
      drive: {
        ...driveJson(marks.filter((mark) => mark.visitId === visit.id && mark.personId === input.personId)),
        zoneBeyond: beyond(visit.id),
      },
      ...accessJson(mayCall({ onVisit: true, visitState: visit.state, ...visit }, input.now) ? access.get(visit.jobId) : undefined),
      acknowledgements: askedOf(visit, asked),
    })),
  };
}

export const visitJson = (v: VisitRow) => ({
  id: v.id,
  jobId: v.jobId,
  jobNumber: v.jobNumber,
  kind: v.kind,
  state: v.state,
  day: v.day,
  startsAt: v.startsAt.toISOString(),
  endsAt: v.endsAt.toISOString(),
  expectedAt: v.expectedAt?.toISOString() ?? null,
  address: v.address,
  town: v.town,
  pair: v.pair,
  kit: v.kit,
  services: v.services.map((key) => v.serviceNames[key] ?? key),
  recordId: v.recordId,
  recordState: v.recordState,
});

const driveJson = (marks: readonly MarkRow[]) => {
  const at = (wanted: MarkRow['kind']) => marks.find(({ kind }) => kind === wanted)?.at.toISOString() ?? null;
  return { setOutAt: at('set_out'), arrivedAt: at('arrived') };
};

type Access = Awaited<ReturnType<typeof accessOfJobs>>[number];

const accessJson = (row: Access | undefined) => ({
  access: { state: row?.state ?? null, lines: accessLines(row?.details) },
  people: row?.people ?? [],
});

export const askedOf = (visit: VisitRow, asked: Awaited<ReturnType<typeof missingAcknowledgements>>): Asked[] =>
  asked.flatMap((m) =>
    visit.pair
      .filter(({ personId }) => personId === m.personId)
      .map(({ personId, name }) => ({ personId, person: name, revisionId: m.revisionId, title: m.procedureTitle, number: m.number })),
  );
