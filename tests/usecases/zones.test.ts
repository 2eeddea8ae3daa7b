// Tag: time.
// Times where they are hard: nights and midnights, days with clock changes, and a house beyond a zone border (an invented one).
import { describe, expect, it } from 'vitest';
import { sunsetMinute } from '@backsight/scheduling/daylight';
import { loadWorld } from '@backsight/usecases/schedule/steps/loadWorld';
import { zoneBeyond } from '@backsight/usecases/schedule/steps/zone';
import { FACTS, startsOf } from '../support/booking.ts';
import { CAST, OFFICE, withCast } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const service = testService();
withCast(service);
withStarter(service);
const ZONE = 'America/Chicago';
const world = (day: string) =>
  loadWorld(service.database.read, { from: day, to: day, now: service.clock.now, officeId: OFFICE, zone: ZONE });

describe('a visit until midnight', () => {
  // In UTC it lies on the next day already; the clocks change in the night after it in 2026 and 2027.
  it.each(['2026-05-16', '2026-10-31', '2027-03-13'])('on %s belongs to its local day, and leaves the next one free', async (day) => {
    const at = (minutes: number) => new Date(endOf(day) - minutes * 60_000).toISOString();
    expect(at(120).slice(0, 10)).toBe(nextDay(day));
    await bookedVisit(service, { startsAt: at(120), endsAt: at(0), first: CAST.anna.id, second: CAST.ben.id });
    const busyOn = async (on: string) => (await world(on)).busy.filter((busy) => busy.day === on);
    expect(await busyOn(day)).toMatchObject([{ day, start: 1320, end: 1440 }]);
    expect(await busyOn(nextDay(day))).toEqual([]);
  });
});

describe('an absence over midnight', () => {
  // 10 PM to 9 AM across the hour that comes twice (2026-11-01) and the one that does not come (2027-03-14).
  it.each([
    ['2026-10-31', '2026-11-01T03:00:00Z', '2026-11-01T15:00:00Z'],
    ['2027-03-13', '2027-03-14T04:00:00Z', '2027-03-14T14:00:00Z'],
  ])('from %s takes the evening and the morning of the local days', async (day, startsAt, endsAt) => {
    await service.database.transaction(async ({ db }) => {
      const span = { startsAt: new Date(startsAt), endsAt: new Date(endsAt) };
      await db.absence.create({
        data: { id: service.newId(), personId: CAST.cora.id, ...span, reason: 'A wedding', recordedAt: service.clock.now },
      });
    });
    const offOn = async (on: string) => (await world(on)).people.find(({ id }) => id === CAST.cora.id)!.off.filter((off) => off.day === on);
    expect(await offOn(day)).toMatchObject([{ day, start: 1320, end: 1440 }]);
    expect(await offOn(nextDay(day))).toMatchObject([{ day: nextDay(day), start: 0, end: 540 }]);
  });
});

describe('a house beyond a zone border', () => {
  const EAST = { lat: 44.25, lon: -85.9 };
  const NEAR = { lat: 44.03, lon: -88.54 };

  it('is planned by the firm’s clock, and its own zone is said', async () => {
    const there = await startsOf(service, { place: EAST, fromDay: '2026-05-13', days: 1, facts: FACTS });
    expect(there).toMatchObject({ zone: ZONE, zoneBeyond: 'America/Detroit' });
    expect((await startsOf(service, { place: NEAR, fromDay: '2026-05-13', days: 1 })).zoneBeyond).toBeNull();
  });
  it('has its daylight counted in the firm’s minutes', () => {
    const [firm, local] = [sunsetMinute(EAST, '2026-12-21', -360), sunsetMinute(EAST, '2026-12-21', -300)];
    expect(local - firm).toBeCloseTo(60, 6);
  });
  it.each([
    ['across the border', EAST, ZONE, 'America/Detroit'],
    ['another name for the same clocks', NEAR, 'America/Menominee', null],
    ['no change of clocks where it lies', { lat: 33.45, lon: -112.07 }, 'America/Denver', 'America/Phoenix'],
  ])('%s', (_, place, zone, beyond) => expect(zoneBeyond(place, zone, '2026-05-13')).toBe(beyond));
});

const nextDay = (day: string): string => new Date(Date.parse(`${day}T12:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
/** The instant of the midnight that ends a day in Chicago; none of the days here changes its offset before it. */
const endOf = (day: string): number => Date.parse(`${nextDay(day)}T00:00:00${day === '2027-03-13' ? '-06:00' : '-05:00'}`);
