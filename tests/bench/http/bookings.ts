// Bookings that fit beside each other: each a house and a client of its own, at a start that was free when all before it were booked.
import { randomUUID } from 'node:crypto';
import { addDays } from '@backsight/scheduling/time';
import { FACTS, holdBody } from '../../support/holdBody.ts';
import { YEARS_NOW } from '../years/databases.ts';
import type { Recorded } from './bare.ts';
import { apiOver } from './parts.ts';
import { recordedOf, type Ask } from './recording.ts';

type Step = { ask: Ask; recorded: Recorded };
export type Booking = { hold: Step; confirm: Step };
type Option = { startsAt: string; first: string; second: string | null };

const FIRST_DAY = '2026-05-18';

/** Books so many times in one database, by whoever has the cookie, and answers what was sent and run. */
export async function bookingsOf(url: string, cookie: string, many: number): Promise<Booking[]> {
  const database = new URL(url).pathname.slice(1);
  const api = await apiOver(url, { began: YEARS_NOW.getTime(), connections: 4 });
  const towns = await api.app.inject({ method: 'GET', url: '/api/towns', headers: { cookie } });
  const town = (towns.json() as { name: string; lat: number; lon: number }[])[0]!;
  const made: Booking[] = [];
  for (let day = FIRST_DAY; made.length < many; day = addDays(day, 1)) {
    const payload = { place: { lat: town.lat, lon: town.lon }, facts: FACTS, services: ['inspection'], fromDay: day, days: 1, limit: 30 };
    const found = await api.app.inject({ method: 'POST', url: '/api/starts', headers: { cookie }, payload });
    for (const option of apart((found.json() as { options: Option[] }).options))
      if (made.length < many) made.push(await booked({ app: api.app, database, cookie }, option, town.name, made.length));
  }
  await api.close();
  return made;
}

/** Starts of which no two take the same person: whichever is booked first, the others stay possible. */
function apart(options: readonly Option[]): Option[] {
  const taken = new Set<string | null>();
  return options.filter(({ first, second }) => {
    if (taken.has(first) || taken.has(second)) return false;
    taken.add(first).add(second);
    return true;
  });
}

type On = { app: Awaited<ReturnType<typeof apiOver>>['app']; database: string; cookie: string };

async function booked({ app, database, cookie }: On, start: Option, town: string, n: number): Promise<Booking> {
  const body = holdBody(start, { property: { id: randomUUID(), address: `${9000 + n} Lantern Street`, town } });
  const step = async (path: string, sent?: unknown): Promise<Step> => {
    const ask: Ask = { method: 'POST', path, cookie, key: randomUUID(), ...(sent === undefined ? {} : { body: sent }) };
    return { ask, recorded: await recordedOf(app, database, ask) };
  };
  return { hold: await step('/api/jobs', body), confirm: await step(`/api/jobs/${body.id}/confirmation`) };
}
