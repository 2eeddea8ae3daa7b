// How many statements an answer takes: no more for many rows than for few, and for the routes that people wait for no more than a number.
// In production each costs a way to the database and back; one for each row is what makes a list slow once a firm has lived some years.
import { beforeAll, describe, expect, it } from 'vitest';
import type { Route } from '@backsight/contract/route';
import { allRoutes } from '../support/contracts.ts';
import { CAST, type CastName } from '../support/cast.ts';
import { holdBody } from '../support/holdBody.ts';
import { testApi } from '../support/http.ts';
import { siteJob } from '../support/siteJob.ts';
import { withStarter } from '../support/starter.ts';
import { statementsOf } from '../support/statements.ts';
import { received } from './callbacks/support.ts';

const api = testApi();
withStarter(api);

/** What is taken away as a file is made of as many parts as it has. */
const FILE = /\.(?:csv|xlsx|pdf|zip|journal)$|\/(?:paper|facts|file|photo|original|receipt)$|photos|letter-drafts|bring-in-samples/;
const QUERY: Record<string, string> = {
  '/api/week': 'from=2026-05-11',
  '/api/find': 'q=street',
  '/api/callbacks/jobs': 'q=street',
  '/api/callbacks/groups': 'by=system',
  '/api/parties': 'text=an',
  '/api/pay': 'from=2026-04-01&until=2026-05-31',
  '/api/mileage': 'from=2026-04-01&to=2026-05-31',
  '/api/report-register': 'from=2026-01-01&to=2026-12-31',
  '/api/personal-data/people': 'q=an',
  '/api/liability/callbacks': 'inspected=2026-04',
};
/** Whose ids a path takes. */
const THINGS: Record<string, string> = {
  jobs: 'job',
  visits: 'visit',
  records: 'site_record',
  callbacks: 'callback',
  'callbacks/jobs': 'job',
  people: 'person',
  invoices: 'invoice',
  parties: 'party',
  plans: 'plan',
  procedures: 'procedure',
  revisions: 'procedure_revision',
  inquiries: 'inquiry',
  'agreement-texts': 'agreement_text',
  'corrective-actions': 'corrective_action',
  'fee-schedules': 'fee_schedule',
};
const TRIED = 3;
/** Parts of an answer may ask the same, which is a fixed number of times; the firm has five rows of each kind, so that one for each row is more. */
const AGAIN = 4;
const ROWS = 5;
/** Where there are rows of a kind at all, a part of the answer may ask about them together. */
const NEW_PARTS = 1;

type Counted = { status: number; statements: string[] };

async function asked(who: CastName, path: string): Promise<Counted> {
  await api.send(who, 'GET', '/api/me');
  const { value, statements } = await statementsOf(new URL(api.url).pathname.slice(1), () => api.send(who, 'GET', path));
  return { status: value.status, statements: statements.map(({ text }) => text) };
}

/** As the first of the people whom the route answers. */
async function answered(path: string): Promise<Counted | null> {
  for (const who of ['owner', 'office', 'lead', 'anna'] as const) {
    const one = await asked(who, path);
    if (one.status === 200) return one;
    if (one.status !== 403) return null;
  }
  return null;
}

const DAY = 24 * 3_600_000;
const after = (days: number): Date => new Date(api.clock.now.getTime() + days * DAY);
let grown = 0;

/** So many inspections that are over, each with a callback, and as many that are booked. */
async function grow(many: number): Promise<void> {
  for (let n = 0; n < many; n += 1) {
    grown += 1;
    const over = await siteJob(api, { startsAt: after(-grown) });
    await api.database.transaction(async ({ db }) => {
      await db.visit.updateMany({ where: { jobId: over.jobId }, data: { state: 'done' } });
      await db.job.update({ where: { id: over.jobId }, data: { state: 'visited' } });
    });
    await received(api, over);
    await siteJob(api, { startsAt: after(grown), signed: false });
  }
}

const lists = (): string[] => routes.filter(({ path }) => !path.includes(':')).map(({ path }) => queried(path));

function repeated(statements: readonly string[]): string[] {
  const times = new Map<string, number>();
  for (const one of statements) times.set(one, (times.get(one) ?? 0) + 1);
  return [...times].filter(([, n]) => n > AGAIN).map(([text, n]) => `${n} times ${text.replace(/\s+/g, ' ').slice(0, 120)}`);
}

const queried = (path: string): string => (QUERY[path] ? `${path}?${QUERY[path]}` : path);

let routes: Route[];
const few = new Map<string, number>();
beforeAll(async () => {
  routes = (await allRoutes()).filter(({ method, path }) => method === 'GET' && !FILE.test(path));
  await grow(1);
  for (const path of lists()) {
    const one = await answered(path);
    if (one) few.set(path, one.statements.length);
  }
  await grow(ROWS - 1);
});

describe('an answer', () => {
  it('of a list takes no more statements for many rows than for few', async () => {
    const wrong: string[] = [];
    for (const [path, before] of few) {
      const { statements } = (await answered(path))!;
      for (const one of repeated(statements)) wrong.push(`${path}: ${one}`);
      if (statements.length > before + NEW_PARTS) wrong.push(`${path}: ${before}, then ${statements.length}`);
    }
    expect(wrong).toEqual([]);
    expect(few.size).toBeGreaterThan(50);
  });

  it('about a thing sends no statement for each of its rows', async () => {
    const wrong = new Set<string>();
    let answers = 0;
    for (const { path } of routes) {
      const table = THINGS[/^\/api\/([\w/-]+)\/:id(?:\/[\w-]+)?$/.exec(path)?.[1] ?? ''];
      if (!table) continue;
      const rows = await api.database.read.rows<{ id: string }>(`SELECT id::text AS id FROM ${table} ORDER BY id DESC LIMIT ${TRIED}`);
      for (const { id } of rows) {
        const one = await answered(queried(path).replace(':id', id));
        if (one) answers += 1;
        for (const statement of repeated(one?.statements ?? [])) wrong.add(`${path}: ${statement}`);
      }
    }
    expect([...wrong]).toEqual([]);
    expect(answers).toBeGreaterThan(60);
  });

  it('that people wait for takes no more statements than these', async () => {
    const [{ job, callback }] = (await api.database.read.rows<{ job: string; callback: string }>(
      `SELECT (SELECT id::text FROM job WHERE state = 'booked' ORDER BY number DESC LIMIT 1) AS job, (SELECT id::text FROM callback ORDER BY number DESC LIMIT 1) AS callback`,
    )) as [{ job: string; callback: string }];
    const most: [CastName, string, number][] = [
      ['office', '/api/home', 35],
      ['lead', '/api/home', 30],
      ['anna', '/api/home', 16],
      ['office', '/api/week?from=2026-05-11', 5],
      ['office', '/api/jobs', 2],
      ['office', `/api/jobs/${job}`, 14],
      ['lead', `/api/callbacks/${callback}`, 19],
      ['office', '/api/find?q=Alder', 9],
    ];
    for (const [who, path, allowed] of most) {
      const { status, statements } = await asked(who, path);
      expect([status, path, statements.length <= allowed ? allowed : statements.length]).toEqual([200, path, allowed]);
    }
  });

  it('to a booking takes no more statements than these, in so many goes, and none of them goes through Prisma', async () => {
    const body = holdBody({ startsAt: '2026-06-02T13:00:00.000Z', first: CAST.anna.id, second: CAST.ben.id });
    const most: [string, object, number, number][] = [
      ['/api/jobs', body, 30, 14],
      [`/api/jobs/${body.id}/confirmation`, {}, 57, 20],
    ];
    for (const [path, sent, allowed, goes] of most) {
      const { value, statements } = await statementsOf(new URL(api.url).pathname.slice(1), () =>
        api.send('office', 'POST', path, { body: sent }),
      );
      const texts = statements.map(({ text }) => text);
      const done = texts.slice(0, texts.indexOf('COMMIT') + 1); // behind it the helper asks a second time under the same key
      expect([value.status, path, done.length <= allowed ? allowed : done.length]).toEqual([201, path, allowed]);
      expect([path, new Set(statements.slice(0, done.length).map(({ trip }) => trip)).size]).toEqual([path, goes]);
      expect(texts.filter((text) => text.includes('"public".'))).toEqual([]);
    }
  });
});
