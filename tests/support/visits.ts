// A booked job with one visit, written straight into the records, for tests about something else than booking.
import { dayIn } from '@backsight/store/database';
import { OFFICE } from './cast.ts';
import type { TestService } from './database.ts';

/** Needs the cast and the starter set. Answers the ids of the job and its visit. */
export async function bookedVisit(
  service: TestService,
  v: { startsAt: string; endsAt: string; first: string; second: string; state?: 'booked' | 'done'; street?: string },
): Promise<{ jobId: string; visitId: string }> {
  const { newId } = service;
  const recordedAt = service.clock.now;
  const [jobId, visitId, propertyId] = [newId(), newId(), newId()];
  const minute = (at: string): Date => new Date(Math.floor(Date.parse(at) / 60_000) * 60_000);
  const times = { startsAt: minute(v.startsAt), endsAt: minute(v.endsAt), live: true };
  await service.database.transaction(async ({ db }) => {
    const schedule = await db.feeSchedule.findFirstOrThrow();
    const rules = await db.bookingRules.findFirstOrThrow();
    const address = v.street ?? `${Math.trunc(times.startsAt.getTime() / 60_000) % 9000} Shore Road`;
    await db.property.create({
      data: {
        id: propertyId,
        address,
        town: 'Birchmere',
        zip: '54901',
        addressKey: `${address} ${propertyId}`,
        lat: 44.03,
        lon: -88.54,
        recordedAt,
      },
    });
    await db.job.create({
      data: {
        id: jobId,
        number: Number.parseInt(jobId.slice(-6), 16),
        officeId: OFFICE,
        propertyId,
        kind: 'inspection',
        state: v.state === 'done' ? 'visited' : 'booked',
        facts: {},
        scheduleId: schedule.id,
        rulesId: rules.id,
        terms: 'due_at_visit',
        recordedAt,
      },
    });
    await db.visit.create({
      data: { id: visitId, jobId, kind: 'inspection', crewSize: 2, state: v.state ?? 'booked', because: {}, recordedAt, ...times },
    });
    await db.assignment.createMany({
      data: [
        { visitId, place: 'first', personId: v.first, ...times },
        { visitId, place: 'second', personId: v.second, ...times },
      ],
    });
    await db.jobNeed.create({
      data: { id: newId(), jobId, kind: 'access', state: 'open', dueAt: dayIn('2026-06-01'), details: {}, recordedAt },
    });
  });
  return { jobId, visitId };
}
