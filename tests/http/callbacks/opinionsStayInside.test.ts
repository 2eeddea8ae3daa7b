// No opinion leaves the two who have them: every route is asked as office and as inspector, every paper and table also as owner, and no planted word comes back.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { LETTERS } from '@backsight/contract/callbacks/after';
import type { Route } from '@backsight/contract/route';
import { CAST, type CastName } from '../../support/cast.ts';
import { allRoutes, nameOf } from '../../support/contracts.ts';
import { testApi, type Answer } from '../../support/http.ts';
import { flat, readPdf } from '../../support/pdf.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { start } from '../sitework/support.ts';
import { on, received } from './support.ts';

const api = testApi();
withStarter(api);
/** Stands in every opinion that is planted; no fact has it. */
const MARK = 'quillwort';
/** What each opinion says, so that a leak names its source. */
const word = (source: string): string => `The ${MARK} of the ${source}.`;
let routes: Route[];
let ids: Record<string, string[]>;
let callback: string;

const ok = (answer: Answer): Answer => {
  expect(answer.status, JSON.stringify(answer.body)).toBeLessThan(300);
  return answer;
};

beforeAll(async () => {
  routes = (await allRoutes()).filter((route) => !route.path.startsWith('/api/session'));
  const job = await siteJob(api, { startsAt: api.clock.now, pair: ['lead', 'anna'] });
  const recordId = await start(api, job.visitId, 'anna');
  callback = await received(api, job);
  const act = async (who: CastName, path: string, body: object) => ok(await on(api, who, callback, path, body));
  await act('office', 'acknowledge', {});
  await plant(job.jobId, act);
  const file = randomUUID();
  ok(
    await api.send('office', 'POST', `/api/jobs/${job.jobId}/files`, {
      body: { id: file, forWhom: 'Ida Quill', reason: 'A request of records came in.', opinions: false },
    }),
  );
  await gatherIds(job.jobId, { recordId, file });
});

/** Every opinion that somebody can write down, each with the word. */
async function plant(jobId: string, act: (who: CastName, path: string, body: object) => Promise<Answer>): Promise<void> {
  ok(
    await api.send('owner', 'POST', '/api/error-kinds', {
      body: { allowed: true, attorney: word('attorney asked'), askedOn: '2026-05-04' },
    }),
  );
  const conclusionId = randomUUID();
  const traced = { cause: 'skipped', stepKey: 'ground-fault-trip-reset', errorKind: 'lapse', circumstances: ['other'] };
  await act('lead', 'conclusion', { conclusionId, ...traced, words: word('conclusion') });
  await act('lead2', 'confirmation', { confirmationId: randomUUID(), conclusionId, way: 'person', words: word('confirmation') });
  for (const who of ['lead', 'anna'] as const) {
    await act('owner', 'account-requests', { requestId: randomUUID(), personId: CAST[who].id });
    const body = { accountId: randomUUID(), seen: word(`account of ${who}`), did: word(`doing of ${who}`), further: false };
    ok(await api.send(who, 'POST', `/api/accounts/${callback}`, { body }));
  }
  await act('owner', 'counsel-marks', { markId: randomUUID(), counsel: word('counsel'), requestedOn: '2026-05-12' });
  await act('owner', 'reserve', { cents: 50_000, words: word('reserve') });
  const remedy = { remedyId: randomUUID(), kind: 'goodwill_payment', cents: 12_000, payee: 'Paula Prior' };
  await act('owner', 'remedies', { ...remedy, words: word('remedy') });
  await act('owner', 'clearance', { kind: 'owner_reason', words: word('clearance') });
  ok(await api.send('owner', 'POST', `/api/jobs/${jobId}/holds`, { body: { holdId: randomUUID(), words: word('hold') } }));
}

/** Ids of what there is, by the word of the path that stands before them. */
async function gatherIds(jobId: string, { recordId, file }: { recordId: string; file: string }): Promise<void> {
  const of = async (sql: string): Promise<string[]> => (await api.database.read.rows<{ id: string }>(sql)).map(({ id }) => id);
  ids = {
    jobs: [jobId],
    callbacks: [callback],
    accounts: [callback],
    records: [recordId],
    'job-files': [file],
    visits: await of('SELECT id::text FROM visit'),
    people: [CAST.anna.id, CAST.lead.id],
    mail: await of('SELECT id::text FROM outgoing_mail ORDER BY recorded_at LIMIT 3'),
    properties: await of('SELECT id::text FROM property'),
    procedures: await of('SELECT id::text FROM procedure LIMIT 2'),
    revisions: await of('SELECT id::text FROM procedure_revision LIMIT 2'),
    agreements: await of('SELECT id::text FROM agreement'),
    letters: (await api.send('office', 'GET', `/api/callbacks/${callback}/letters`)).body.map(({ id }: { id: string }) => id),
    'letter-drafts': Object.keys(LETTERS),
  };
}

/** The addresses of a route: every parameter takes what the word before it names, else the callback and its job. */
function addresses({ path }: Route): string[] {
  const [whole, before, name] = /\/([\w-]+)\/:(\w+)/.exec(path) ?? [];
  if (whole === undefined) return [path];
  const fitting = name === 'day' ? ['2026-05-12'] : (ids[before!] ?? [callback, ids['jobs']![0]!]);
  return fitting.flatMap((one) => addresses({ path: path.replace(`:${name}`, one) } as Route));
}
/** A search for the word itself, a period for what asks for days. */
const queryOf = (route: Route): string => {
  const names = Object.keys(route.query?.shape ?? {});
  if (names.includes('names')) return '?names=yes';
  if (names.includes('q')) return `?q=${MARK}`;
  return names.some((name) => /day|from|until/i.test(name))
    ? '?fromDay=2026-05-12&untilDay=2026-05-20&from=2026-05-01&until=2026-05-31&day=2026-05-12'
    : '';
};

/** What an answer says, whatever it is made of. */
async function wordsOf({ bytes, headers }: Answer): Promise<string> {
  if (!String(headers['content-type']).includes('pdf')) return bytes.toString('utf8');
  const read = await readPdf(bytes);
  const attached = Object.values(read.attachments).map((content) => Buffer.from(content).toString('latin1'));
  return [flat(read.pages.join(' ')), ...attached].join(' ');
}

async function leaksTo(who: CastName, only: (answer: Answer) => boolean = () => true): Promise<{ leaks: string[]; answered: Set<string> }> {
  const leaks: string[] = [];
  const answered = new Set<string>();
  for (const route of routes.filter(({ method }) => method === 'GET'))
    for (const path of addresses(route)) {
      const answer = await api.send(who, 'GET', path + queryOf(route));
      if (answer.status === 200) answered.add(nameOf(route));
      if (only(answer) && (await wordsOf(answer)).includes(MARK)) leaks.push(`${who} ${path}`);
      expect(answer.status, path).toBeLessThan(500);
    }
  return { leaks, answered };
}

describe('opinions', () => {
  it('come back to nobody of the office', { timeout: 60_000 }, async () => {
    const { leaks, answered } = await leaksTo('office');
    expect(leaks).toEqual([]);
    // The walk really got there: the callback, its job, lists, mails, files and papers.
    for (const route of [
      'GET /api/callbacks/:id',
      'GET /api/callbacks',
      'GET /api/jobs/:id',
      'GET /api/jobs/:id/hold',
      'GET /api/job-files/:id',
      'GET /api/home',
      'GET /api/mail',
      'GET /api/callbacks/:id/letters/:letterId/paper',
      'GET /api/callbacks/:id/letter-drafts/:letter',
    ])
      expect([...answered], route).toContain(route);
  });
  it('come back to no inspector, but the own account', { timeout: 60_000 }, async () => {
    expect((await api.send('ben', 'GET', `/api/accounts/${callback}`)).status).toBe(403);
    const mine = await leaksTo('anna');
    expect(mine.leaks.filter((leak) => !leak.startsWith(`anna /api/accounts/${callback}`))).toEqual([]);
    const own = JSON.stringify((await api.send('anna', 'GET', `/api/accounts/${callback}`)).body);
    expect(own.match(new RegExp(`${MARK} of the [\\w ]+`, 'g'))).toEqual([
      `${MARK} of the account of anna`,
      `${MARK} of the doing of anna`,
    ]);
  });
  it('stand in no paper and no table of the owner either, unless an owner chose so', { timeout: 60_000 }, async () => {
    const onPaper = (answer: Answer): boolean => /pdf|csv|calendar|zip/.test(String(answer.headers['content-type']));
    const { leaks, answered } = await leaksTo('owner', onPaper);
    expect(leaks).toEqual([]);
    expect([...answered]).toContain('GET /api/callbacks/:id/facts');
    const chosen = randomUUID();
    const make = (opinions: boolean, who: CastName) =>
      api.send(who, 'POST', `/api/jobs/${ids['jobs']![0]}/files`, {
        body: { id: chosen, forWhom: 'Ida Quill', reason: 'The attorney said so.', opinions },
      });
    expect((await make(true, 'office')).status).toBe(403);
    ok(await make(true, 'owner'));
    expect((await api.send('office', 'GET', `/api/job-files/${chosen}`)).status).toBe(403);
    const words = await wordsOf(await api.send('owner', 'GET', `/api/job-files/${chosen}`));
    for (const source of ['conclusion', 'confirmation', 'account of anna', 'doing of lead', 'counsel'])
      expect(words).toContain(`${MARK} of the ${source}`);
    expect(words).toContain('A mark alone creates no privilege');
  });
  it('stand in no mail, no audit row and no reply to what somebody may do', async () => {
    const rows = await api.database.read.rows<{ where: string }>(
      `SELECT 'mail' AS "where" FROM outgoing_mail WHERE (subject || body || coalesce(calendar, '')) LIKE $1 UNION ALL SELECT operation FROM audit_row WHERE details::text LIKE $1
       UNION ALL SELECT 'event' FROM callback_event WHERE details::text LIKE $1 UNION ALL SELECT 'reply' FROM idempotency_key WHERE reply::text LIKE $1`,
      [`%${MARK}%`],
    );
    expect(rows).toEqual([]);
    for (const route of routes.filter(({ method }) => method !== 'GET'))
      for (const who of ['office', 'ben'] as const) {
        const answer = await api.send(who, route.method, addresses(route)[0]!, { body: {}, once: true, version: 1 });
        expect(JSON.stringify(answer.body ?? ''), nameOf(route)).not.toContain(MARK);
      }
  });
});
