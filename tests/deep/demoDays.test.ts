// The demo firm on unusual days of the start.
import { describe, expect, it } from 'vitest';
import { demoFor } from '../../prisma/seed/demo/demo.ts';

// a working day, a New Year's Eve night, the hour that the clocks skip, the hour that comes twice
const DAYS = ['2026-05-13T16:30:00Z', '2026-01-01T05:30:00Z', '2026-03-08T08:30:00Z', '2026-11-01T06:30:00Z'];

describe('any day can be the day of the start', () => {
  it.each(DAYS)(
    '%s',
    async (now) => {
      const { tables } = await demoFor(new Date(now), { passwordHash: 'x', pastDays: 0 });
      expect(new Set(tables.get('callback')!.rows.map(({ state }) => state)).size).toBe(6);
      expect(tables.get('callback')!.rows.length).toBe(13);
      expect(tables.get('job')!.rows.length).toBeGreaterThan(285);
    },
    120_000,
  );

  it.each([...DAYS, '2026-07-06T13:00:00Z', '2026-09-18T21:00:00Z', '2027-01-12T15:00:00Z', '2027-02-26T18:00:00Z'])(
    '%s, with the years before it: nobody is in two places',
    async (now) => {
      const { tables } = await demoFor(new Date(now), { passwordHash: 'x', behind: true });
      const visits = tables.get('assignment')!.rows.filter(({ live }) => live);
      const twice = visits.filter((a) =>
        visits.some(
          (b) => a !== b && a.personId === b.personId && a.startsAt <= b.startsAt && b.startsAt < a.endsAt && a.visitId !== b.visitId,
        ),
      );
      expect(twice).toEqual([]);
      expect(tables.get('callback')!.rows.length).toBeGreaterThan(60);
    },
    240_000,
  );
});
