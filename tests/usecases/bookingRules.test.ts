// Tag: time.
// Rules that only show against the real records: acknowledgement after its grace, holds that end, days with clock changes, kit, absences.
import { beforeAll, describe, expect, it } from 'vitest';
import { holdJob } from '@backsight/usecases/jobs/holdJob';
import { lapseHolds } from '@backsight/usecases/jobs/lapseHolds';
import { dayIn } from '@backsight/store/database';
import { findJob } from '@backsight/store/jobs/jobs';
import { findVisitsOfJob } from '@backsight/store/schedule/visits';
import { TEST_NOW, testService } from '../support/database.ts';
import { as, CAST, withCast } from '../support/cast.ts';
import { withStarter } from '../support/starter.ts';
import { holdBody, startsOf } from '../support/booking.ts';

const service = testService();
withCast(service);
withStarter(service);
const id = (n: number) => `00000000-0000-7000-8000-0000009${String(n).padStart(5, '0')}`;
const hold = (start: Parameters<typeof holdBody>[0], more?: Parameters<typeof holdBody>[1]) =>
  service.runner.run(holdJob, holdBody(start, more), { actor: as('office') });

describe('a hold', () => {
  it('ends by the clock, frees its people and is noted on the job', async () => {
    const { options } = await startsOf(service);
    const held = await hold(options[0]!);
    if (!held.ok) throw new Error(held.code);
    expect(await lapseHolds({ ...service, clock: () => service.clock.now })).toBe(0);
    service.clock.now = new Date(TEST_NOW.getTime() + 21 * 60_000);
    expect(await lapseHolds({ ...service, clock: () => service.clock.now })).toBe(1);
    expect(await findJob(service.database.read, held.value.id)).toMatchObject({ state: 'lapsed', version: 2 });
    expect(await findVisitsOfJob(service.database.read, held.value.id)).toMatchObject([{ state: 'lapsed' }]);
    expect(await hold(options[0]!)).toMatchObject({ ok: true });
    service.clock.now = TEST_NOW;
  });
});

describe('a day on which the clocks change (second Sunday of March, first of November: Energy Policy Act of 2005, section 110)', () => {
  beforeAll(async () => {
    await service.database.transaction(async (tx) => {
      await tx.db.workPattern.createMany({
        data: [CAST.anna, CAST.ben].map((m, n) => ({
          id: id(n),
          personId: m.id,
          weekday: 7,
          startMinute: 480,
          endMinute: 1020,
          fromDay: dayIn('2024-01-01'),
        })),
      });
    });
  });
  it.each([
    ['2026-11-01', '-06:00'],
    ['2027-03-14', '-05:00'],
  ])('on %s offers and keeps the wall clock of the office', async (day, offset) => {
    const { options } = await startsOf(service, { fromDay: day, days: 1 });
    const first = options[0]!;
    expect([first.firstName, first.secondName].sort()).toEqual(['Anna Inspector', 'Ben Inspector']);
    expect(new Date(first.startsAt).getTime()).toBe(
      new Date(`${day}T${first.sentence.match(/(\d+):(\d+) (AM|PM)/) ? clock(first.sentence) : ''}:00${offset}`).getTime(),
    );
    const held = await hold(first);
    expect(held).toMatchObject({ ok: true, value: { startsAt: first.startsAt, endsAt: first.endsAt } });
  });
});

/** '9:15 AM' of a sentence as '09:15'. */
function clock(sentence: string): string {
  const [, hour, minute, half] = /(\d+):(\d+) (AM|PM)/.exec(sentence)!;
  return `${String((Number(hour) % 12) + (half === 'PM' ? 12 : 0)).padStart(2, '0')}:${minute}`;
}

describe('a revision that somebody has not acknowledged', () => {
  beforeAll(async () => {
    await service.database.transaction(async (tx) => {
      const [old] = await tx.rows<{ id: string; procedureId: string; period: string }>(
        `SELECT r.id::text AS id, r.procedure_id::text AS "procedureId", f.id::text AS period FROM procedure_revision r JOIN in_force_period f ON f.revision_id = r.id ORDER BY r.id LIMIT 1`,
      );
      const from = new Date('2026-05-10T12:00:00Z');
      await tx.db.inForcePeriod.update({ where: { id: old!.period }, data: { untilAt: from } });
      await tx.db.procedureRevision.create({
        data: {
          id: id(500),
          procedureId: old!.procedureId,
          number: 2,
          state: 'approved',
          reason: 'Learned',
          basedOnId: old!.id,
          authorId: CAST.lead.id,
          approverId: CAST.owner.id,
          approvedAt: from,
          inForceFrom: from,
          acknowledgeBy: new Date('2026-05-20T22:00:00Z'),
          recordedAt: from,
        },
      });
      await tx.db.inForcePeriod.create({ data: { id: id(501), procedureId: old!.procedureId, revisionId: id(500), fromAt: from } });
      const acknowledged = [CAST.lead, CAST.lead2, CAST.ben, CAST.cora, CAST.dan];
      await tx.db.acknowledgement.createMany({
        data: acknowledged.map((m) => ({ revisionId: id(500), personId: m.id, where: 'ahead', happenedAt: from, recordedAt: from })),
      });
    });
  });
  const goes = (options: { first: string; second: string | null }[], who: string) =>
    options.some((o) => o.first === who || o.second === who);
  it('still goes within the grace', async () => {
    const { options } = await startsOf(service, { fromDay: '2026-05-20', days: 1, limit: 100, wishes: { personId: CAST.anna.id } });
    expect(goes(options, CAST.anna.id)).toBe(true);
  });
  it('may within the grace still be booked for a day beyond it', async () => {
    const { options } = await startsOf(service, { fromDay: '2026-05-21', days: 1, limit: 100, wishes: { personId: CAST.anna.id } });
    expect(goes(options, CAST.anna.id)).toBe(true);
  });
  it('is not offered after it, and refused when asked for by hand', async () => {
    service.clock.now = new Date('2026-05-21T05:30:00Z');
    const { options } = await startsOf(service, { fromDay: '2026-05-21', days: 1, limit: 100, wishes: { personId: CAST.anna.id } });
    expect(options.length).toBeGreaterThan(0);
    expect(goes(options, CAST.anna.id)).toBe(false);
    const other = options[0]!.first === CAST.lead.id ? CAST.lead2.id : CAST.lead.id;
    const asked = await hold({ startsAt: options[0]!.startsAt, first: other, second: CAST.anna.id });
    expect(asked).toMatchObject({ ok: false, code: 'start-not-possible' });
    expect(!asked.ok && asked.about.rules).toContain('acknowledgement');
    service.clock.now = TEST_NOW;
  });
});

describe('what keeps people and kit away', () => {
  it('an absence, a closed day, a bar from the property', async () => {
    const day = '2026-05-27';
    await service.database.transaction(async (tx) => {
      await tx.db.absence.create({
        data: {
          id: id(600),
          personId: CAST.ben.id,
          startsAt: new Date('2026-05-27T05:00:00Z'),
          endsAt: new Date('2026-05-28T05:00:00Z'),
          reason: 'x',
          recordedAt: TEST_NOW,
        },
      });
      await tx.db.closedDay.create({ data: { day: dayIn('2026-05-28'), name: 'Stock-taking' } });
    });
    const { options, blockedDays } = await startsOf(service, { fromDay: day, days: 2, limit: 100 });
    expect(options.some((o) => o.first === CAST.ben.id || o.second === CAST.ben.id)).toBe(false);
    expect(blockedDays.map((d) => d.day)).toEqual(['2026-05-28']);
  });
  it('kit whose calibration has run out', async () => {
    const { blockedDays, options } = await startsOf(service, { fromDay: '2040-07-02', days: 1 });
    expect(options).toEqual([]);
    expect(blockedDays[0]!.reasons.length).toBeGreaterThan(0);
  });
});
