// The demo firm on unusual days of the start.
import { describe, expect, it } from 'vitest';
import { demoFor } from '../../prisma/seed/demo/demo.ts';

describe('any day can be the day of the start', () => {
  // a working day, a New Year's Eve night, the hour that the clocks skip, the hour that comes twice
  it.each(['2026-05-13T16:30:00Z', '2026-01-01T05:30:00Z', '2026-03-08T08:30:00Z', '2026-11-01T06:30:00Z'])(
    '%s',
    async (now) => {
      const { tables } = await demoFor(new Date(now), { passwordHash: 'x', pastDays: 0 });
      expect(new Set(tables.get('callback')!.rows.map(({ state }) => state)).size).toBe(6);
      expect(tables.get('callback')!.rows.length).toBe(13);
      expect(tables.get('job')!.rows.length).toBeGreaterThan(285);
    },
    120_000,
  );
});
