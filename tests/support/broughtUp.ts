// From any earlier schema to this one: every row that was there is there, everything verifies, and the service serves it.
import { expect } from 'vitest';
import { migrate } from '@backsight/store/migrate';
import { openDatabase, type Database } from '@backsight/store/database';
import { verify } from '@backsight/usecases/backup/verify';
import { uuidv7 } from '@backsight/usecases/ids';
import { createRunner } from '@backsight/usecases/run';
import { emailOf, everybody } from '../../prisma/seed/demo/people.ts';
import { buildApp } from '../../apps/api/src/app.ts';
import { PASSWORD } from './cast.ts';
import { ALL, countsOf } from './releases.ts';
import { servicesOf } from './services.ts';

/** The office manager of the firm. */
const OFFICE = emailOf(everybody.find(({ roles }) => roles.includes('office_manager'))!);
/** Sums that are made anew every night: a change may empty them. */
const SUMS = new Set(['figure', 'step_figure', 'window_figure', 'money_day', 'week_figure', 'span_sum', 'figure_day']);
/** What does not hold, by what was looked at. */
export async function doesNotHold(database: Database): Promise<Map<string, string[]>> {
  const findings = await verify({ reader: database.read, dataDir: '/nowhere', say: () => {} });
  return new Map(findings.map(({ what, wrong }) => [what, wrong]));
}

/**
 * Brings the database at `url` up in one go and looks at it; `from` names where it came from. `known` does not hold in the firm of today
 * either: files of rows that were filled in lie nowhere, and a record that got such a photo was sealed without it.
 */
export async function bringsUp(url: string, from: string, now: Date, known: Map<string, string[]>): Promise<void> {
  const before = await countsOf(url);
  await migrate(url, ALL);
  const after = await countsOf(url);
  const fewer = [...before]
    .filter(([table, n]) => (after.get(table) ?? 0) < n && !SUMS.has(table))
    .map(([table, n]) => `${table}: ${n}, now ${after.get(table) ?? 'no table'}`);
  expect(fewer, from).toEqual([]);
  const database = await openDatabase(url, { size: 4 });
  try {
    const found = [...(await doesNotHold(database))].map(
      ([what, wrong]) => [what, wrong.filter((one) => !known.get(what)!.includes(one))] as const,
    );
    expect(
      found.filter(([, wrong]) => wrong.length > 0),
      from,
    ).toEqual([]);
    const clock = { now };
    const newId = () => uuidv7(clock.now);
    const runner = createRunner({ database, clock: () => clock.now, newId, publicUrl: 'http://office.test' });
    await serves(servicesOf({ url, database, runner, clock, newId, holds: [] }), after.get('job')!, from);
  } finally {
    await database.close();
  }
}

async function serves(services: ReturnType<typeof servicesOf>, jobs: number, from: string): Promise<void> {
  const app = await buildApp(services);
  try {
    const signedIn = await app.inject({ method: 'POST', url: '/api/session', payload: { email: OFFICE, password: PASSWORD } });
    expect(signedIn.statusCode, `${from}: ${signedIn.body}`).toBe(200);
    const cookie = String(signedIn.headers['set-cookie']).split(';')[0]!;
    const listed = await app.inject({ url: '/api/jobs', headers: { cookie } });
    expect([listed.statusCode, listed.json().items?.length > 0], `${from}: ${listed.body.slice(0, 300)}`).toEqual([200, jobs > 0]);
    for (const { id } of listed.json().items.slice(0, 3)) {
      const page = await app.inject({ url: `/api/jobs/${id}`, headers: { cookie } });
      expect(page.statusCode, `${from}: ${page.body.slice(0, 300)}`).toBe(200);
    }
    for (const url of ['/api/home', '/api/health', '/api/callbacks'])
      expect((await app.inject({ url, headers: { cookie } })).statusCode, `${from} ${url}`).toBe(200);
  } finally {
    await services.planner.close();
    await app.close();
  }
}
