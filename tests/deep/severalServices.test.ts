// Three services as real processes on one database: sessions and pauses hold across them, nothing is done twice, and one may go at any time.
import { randomUUID } from 'node:crypto';
import path from 'node:path';
import { DateTime } from 'luxon';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FACTS, holdBody, PLACE } from '../support/booking.ts';
import { CAST, PASSWORD } from '../support/cast.ts';
import { chance, clientsOf, SEED } from '../support/faults/clients.ts';
import { prepare, startLoad, type Acknowledged, type Prepared } from '../support/faults/load.ts';
import { holdMail, holdTruths } from '../support/faults/truths.ts';
import { faultWorld, type RunningService, type World } from '../support/faults/world.ts';
import { smtpServer } from '../support/smtp.ts';

const { arrived, state } = smtpServer({ forgets: false });
let world: World;
let prepared: Prepared;
const services: RunningService[] = [];
let turn = 0;
/** Each request goes to the next service, as a proxy before them does. */
const clients = clientsOf(() => services[turn++ % services.length]!.base);
const told = {} as Acknowledged;

beforeAll(async () => {
  world = await faultWorld();
  const start = () => world.start({ SMTP_URL: `smtp://127.0.0.1:${state.port}` });
  services.push(await start());
  services.push(...(await Promise.all([start(), start()])));
  prepared = await prepare(world.service, clients);
}, 400_000);
afterAll(() => world?.close());

const signIn = (at: RunningService, email: string, password: string) =>
  fetch(`${at.base}/api/session`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ email, password }),
  });
const me = (at: RunningService, cookie: string) => fetch(`${at.base}/api/me`, { headers: { cookie } });
const rows = <T>(sql: string, params: unknown[] = []) => world.service.database.read.rows<T>(sql, params);
const statuses = (all: readonly { status: number }[]): Record<number, number> =>
  all.reduce<Record<number, number>>((sum, { status }) => ({ ...sum, [status]: (sum[status] ?? 0) + 1 }), {});

describe('a session', () => {
  it('begun at one service is good at the others, and ended at one is ended at all', async () => {
    const cookie = (await signIn(services[0]!, CAST.dan.email, PASSWORD)).headers.getSetCookie()[0]!.split(';')[0]!;
    for (const one of services) expect((await me(one, cookie)).status).toBe(200);
    const end = await fetch(`${services[1]!.base}/api/session`, { method: 'DELETE', headers: { cookie } });
    expect(end.status).toBe(200);
    for (const one of services) expect((await me(one, cookie)).status).toBe(401);
  });
  it('is paused everywhere after five wrong passwords at whichever', async () => {
    for (let n = 0; n < 5; n++) expect((await signIn(services[n % 3]!, CAST.tess.email, 'not this one at all')).status).toBe(401);
    for (const one of services) expect((await signIn(one, CAST.tess.email, PASSWORD)).status).toBe(429);
    expect((await signIn(services[0]!, CAST.dan.email, PASSWORD)).status).toBe(200);
  });
});

describe('two hundred bookings for one morning, a third at each service', () => {
  it('give as many houses as there are crews, and everybody else the next times', { timeout: 200_000 }, async () => {
    const fromDay = DateTime.now().setZone('America/Chicago').plus({ weeks: 3 }).startOf('week').plus({ days: 2 }).toISODate();
    const ask = { place: PLACE, facts: FACTS, services: ['inspection'], fromDay, days: 1, limit: 100 };
    const { options } = (await clients.send('office', 'POST', '/api/starts', { body: ask })).body;
    // Starts of one day whose pairs share nobody: each of them fits beside the others.
    const crews = disjoint(options);
    expect(crews.length).toBeGreaterThan(1);
    const before = performance.now();
    const answers = await Promise.all(
      Array.from({ length: 200 }, (_, n) => clients.send('office', 'POST', '/api/jobs', { body: holdBody(crews[n % crews.length]!) })),
    );
    const took = Math.round(performance.now() - before);
    console.log(JSON.stringify({ fault: '200 bookings of one morning', crews: crews.length, answers: statuses(answers), took }));
    expect(statuses(answers)).toEqual({ 201: crews.length, 409: 200 - crews.length });
    for (const { body } of answers.filter(({ status }) => status === 409)) {
      expect(['person-taken', 'start-not-possible']).toContain(body.code);
      expect(body.about.nextStartsAt.length).toBeGreaterThan(0);
    }
  });
});

describe('sixty-four at once', () => {
  it('who sign one agreement sign it once; who sign different ones sign each', { timeout: 200_000 }, async () => {
    const [one, ...others] = prepared.papers.splice(0, 9);
    const form = async ({ jobId, link }: { jobId: string; link: string }) => {
      const { agreement } = (await clients.send('office', 'GET', `/api/jobs/${jobId}/agreement`)).body;
      const [{ name, word }] = agreement.signers;
      return () => clients.form(link, { name, word, read: 'yes', consent: 'yes', sha256: agreement.sha256 });
    };
    const [signs, signOthers] = [await form(one!), await Promise.all(others.map(form))];
    const same = await Promise.all(Array.from({ length: 32 }, signs));
    const different = await Promise.all(Array.from({ length: 32 }, (_, n) => signOthers[n % signOthers.length]!()));
    console.log(JSON.stringify({ fault: '64 signers', same: statuses(same), different: statuses(different) }));
    const signatures = await rows<{ job: string; n: number }>(
      `SELECT a.job_id::text AS job, count(*)::int AS n FROM signature s JOIN signer r ON r.id = s.signer_id JOIN agreement a ON a.id = r.agreement_id WHERE a.job_id = ANY($1::uuid[]) GROUP BY 1`,
      [[one!, ...others].map(({ jobId }) => jobId)],
    );
    expect(signatures.map(({ n }) => n)).toEqual(Array.from({ length: 9 }, () => 1));
  });
  it('who pay one invoice pay it once; who pay different ones pay each', { timeout: 200_000 }, async () => {
    const [one, ...others] = prepared.papers.splice(0, 9);
    const receivedOn = DateTime.now().setZone('America/Chicago').toISODate();
    const pay = (invoiceId: string, cents: number) =>
      clients.send('office', 'POST', `/api/invoices/${invoiceId}/payments`, {
        body: { id: randomUUID(), method: 'check', reference: 'x', cents, receivedOn },
      });
    const same = await Promise.all(Array.from({ length: 32 }, () => pay(one!.invoiceId, 57_500)));
    const different = await Promise.all(Array.from({ length: 32 }, (_, n) => pay(others[n % 8]!.invoiceId, 10_000)));
    console.log(JSON.stringify({ fault: '64 payers', same: statuses(same), different: statuses(different) }));
    expect(same.filter(({ status }) => status === 201)).toHaveLength(1);
    expect(statuses(different)).toEqual({ 201: 32 });
    const open = async (id: string) => (await clients.send('office', 'GET', `/api/invoices/${id}`)).body.openCents;
    expect(await open(one!.invoiceId)).toBe(0);
    for (const { invoiceId } of others) expect(await open(invoiceId)).toBe(57_500 - 40_000);
  });
});

describe('one of three goes hard while everybody works', () => {
  it('and the others go on; each mail leaves once though three send', { timeout: 400_000 }, async () => {
    const load = startLoad(clients, prepared, { many: 6, seed: SEED });
    await load.more(10 + Math.ceil(chance(SEED)() * 20));
    const [gone] = services.splice(1, 1);
    gone!.program.process.kill('SIGKILL');
    await load.more(20);
    await load.stop();
    Object.assign(told, load.told);
    const folder = path.join(world.folder, 'data');
    const truths = await holdTruths({ service: world.service, folder, told });
    const mail = await holdMail(world.service, arrived);
    console.log(JSON.stringify({ fault: 'kill of one of three', ...clients.tally, ...truths, ...mail, refused: load.refused }));
    expect(truths.acknowledged).toBeGreaterThan(10);
  });
});

type Option = { startsAt: string; first: string; second: string };

/** The largest set of pairs of which none shares a person: tried in every order that begins with another pair. */
function disjoint(options: readonly Option[]): Option[] {
  const taken = options.map((_, from) => {
    const used = new Set<string>();
    return [...options.slice(from), ...options.slice(0, from)].filter(({ first, second }) => {
      if (used.has(first) || used.has(second)) return false;
      used.add(first).add(second);
      return true;
    });
  });
  return taken.toSorted((a, b) => b.length - a.length)[0] ?? [];
}
