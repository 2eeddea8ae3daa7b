// Disposing of what is due: held matters stay, everything personal of the rest goes, and every proof still holds.
import fs from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { sealAudit } from '@backsight/store/audit';
import { verify } from '@backsight/usecases/backup/verify';
import { sweepErasedFiles } from '@backsight/usecases/personal/sweep';
import type { Route } from '@backsight/contract/route';
import { allRoutes } from '../../support/contracts.ts';
import { demoApi, DEMO_NOW, fileOf, whereIs } from '../../support/demoApi.ts';

const api = demoApi();
const LATER = new Date('2044-06-01T15:00:00Z');
const rows = <T>(sql: string, params: unknown[] = []) => api.database.read.rows<T>(sql, params);
const retention = async () => (await api.send('harriet', 'GET', '/api/personal-data/retention')).body;
const dispose = (units: { kind: string; id: string }[]) =>
  api.send('harriet', 'POST', '/api/personal-data/disposals', { units: units.map(({ kind, id }) => ({ kind, id })) });
const failing = async () =>
  (await verify({ reader: api.database.read, dataDir: api.dataDir, say: () => {} })).filter(({ wrong }) => wrong.length > 0);

describe('retention', () => {
  it('shows the policy with what the states ask for, and that nothing is due in a young firm', async () => {
    const { policy, due, held } = await retention();
    expect(policy.map((p: { kind: string; years: number; set: null }) => [p.kind, p.years, p.set])).toEqual([
      ['job', 10, null],
      ['mail', 10, null],
      ['callback', 10, null],
      ['inquiry', 2, null],
      ['staff', 7, null],
    ]);
    expect(policy[0].states).toMatchObject([{ state: 'US-WI', years: 6 }]);
    expect([due, held]).toEqual([[], []]);
  });
  it('is set by owners alone, never shorter than a state asks for, neither by the service nor in the database', async () => {
    const rule = { id: api.newId(), kind: 'job', years: 5, reason: 'A shorter time was wanted.' };
    expect((await api.send('dolores', 'POST', '/api/personal-data/retention', rule)).status).toBe(403);
    const no = await api.send('harriet', 'POST', '/api/personal-data/retention', rule);
    expect([no.status, no.body.code], JSON.stringify(no.body)).toEqual([422, 'retention-too-short']);
    const [owner] = await rows<{ id: string }>(`SELECT person_id::text AS id FROM person_role WHERE role = 'owner' LIMIT 1`);
    const past = api.database.transaction(({ db }) =>
      db.retentionRule.create({ data: { ...rule, actorId: owner!.id, recordedAt: DEMO_NOW } }),
    );
    await expect(past).rejects.toThrow(/retention_too_short/);
    const yes = await api.send('harriet', 'POST', '/api/personal-data/retention', { ...rule, years: 8 });
    expect(yes.status).toBe(201);
    expect((await retention()).policy[0]).toMatchObject({ years: 8, set: { reason: rule.reason } });
    const wrong = await api.send('harriet', 'POST', '/api/personal-data/retention', { ...rule, id: api.newId(), years: 0 });
    expect([wrong.status, wrong.body.errors[0].field]).toEqual([422, 'years']);
  });
  it('refuses to dispose of what is not over, and says so', async () => {
    const [job] = await rows<{ id: string }>(
      `SELECT id::text AS id FROM job WHERE state = 'reported' AND NOT EXISTS (SELECT FROM callback c WHERE c.job_id = job.id AND c.state <> 'closed') AND NOT EXISTS (SELECT FROM invoice i WHERE i.job_id = job.id AND i.state = 'issued') LIMIT 1`,
    );
    const no = await dispose([{ kind: 'job', id: job!.id }]);
    expect([no.status, no.body.code]).toEqual([409, 'retention-not-over']);
  });
});

describe('years later', () => {
  let people: { name: string; email: string | null; phone: string | null }[];
  let gone: string[];
  let file: string;
  let before: { ledger: unknown; audit: unknown; jobs: unknown };
  const skeleton = async () => ({
    ledger: await rows('SELECT count(*)::int AS n, sum(abs(cents))::int AS cents FROM ledger_line'),
    audit: await rows(`SELECT md5(string_agg(a::text, ',' ORDER BY a.id)) AS sum FROM audit_row a WHERE recorded_at < '2040-01-01'`),
    jobs: await rows(
      'SELECT number, state, recorded_at, (SELECT sum(cents)::int FROM job_fee_line f WHERE f.job_id = j.id) AS cents FROM job j ORDER BY number',
    ),
  });
  beforeAll(async () => {
    file = await fileOf(api, 'authority.pdf');
    await api.database.transaction((tx) =>
      tx.rows(`UPDATE signer SET authority_sha256 = $1 WHERE id = (SELECT id FROM signer LIMIT 1) RETURNING 1`, [file]),
    );
    while ((await sealAudit(api.database, { limit: 5_000 })) > 0);
    before = await skeleton();
    api.clock.now = LATER;
  });
  it('shows what is due with its reason and what it holds, and apart what an open matter or a hold keeps', async () => {
    const { due, held } = await retention();
    const jobs = due.filter(({ kind }: { kind: string }) => kind === 'job');
    expect(jobs.length).toBeGreaterThan(3);
    expect(jobs[0]).toMatchObject({
      name: expect.stringMatching(/^Job \d+, /),
      holds: expect.stringMatching(/mail/),
      until: expect.stringMatching(/^20/),
    });
    expect(held.map(({ held: why }: { held: string }) => why)).toEqual(
      expect.arrayContaining([expect.stringMatching(/callback|held by hand|not finished|invoice/)]),
    );
    const [kept] = held.filter(({ kind }: { kind: string }) => kind === 'job');
    const no = await dispose([{ kind: 'job', id: kept.id }]);
    expect([409, 422]).toContain(no.status);
    expect(['evidence-held', 'not-finished']).toContain(no.body.code);
  });
  it('leaves everything as it was where one of the list is held', async () => {
    const { due, held } = await retention();
    const no = await dispose([due[0], held.find(({ kind }: { kind: string }) => kind === 'job')]);
    expect(no.status).toBeGreaterThanOrEqual(400);
    expect(await rows('SELECT FROM disposal')).toEqual([]);
  });
  it('takes everything personal out of what was looked at', async () => {
    const { due } = await retention();
    gone = due.filter(({ kind }: { kind: string }) => kind === 'job').map(({ id }: { id: string }) => id);
    people = await rows(
      `SELECT DISTINCT p.name, p.email, p.phone FROM party p WHERE p.id IN (SELECT party_id FROM job_party WHERE job_id = ANY ($1::uuid[])) AND p.id NOT IN (SELECT party_id FROM job_party WHERE NOT job_id = ANY ($1::uuid[]))`,
      [gone],
    );
    const addresses = await rows<{ address: string }>(
      `SELECT address FROM property WHERE id IN (SELECT property_id FROM job WHERE id = ANY ($1::uuid[])) AND id NOT IN (SELECT property_id FROM job WHERE NOT id = ANY ($1::uuid[]))`,
      [gone],
    );
    const words = [...people.flatMap(({ name, email }) => [name, email ?? name]), ...addresses.map(({ address }) => address)];
    expect(people.length).toBeGreaterThan(3);
    expect((await whereIs(api.database, words)).length).toBeGreaterThan(8);
    const done = await dispose(due);
    expect([done.status, done.body.units], JSON.stringify(done.body)).toEqual([201, due.length]);
    expect(done.body.rows).toBeGreaterThan(50);
    expect(await whereIs(api.database, words)).toEqual([]);
    expect((await retention()).due).toEqual([]);
    expect((await retention()).disposed.length).toBeGreaterThan(due.length - 1);
  }, 60_000);
  it('takes the bytes of files from the disk, and keeps the fingerprint', async () => {
    const [used] = await rows<{ job: string }>(
      'SELECT a.job_id::text AS job FROM signer s JOIN agreement a ON a.id = s.agreement_id WHERE s.authority_sha256 = $1',
      [file],
    );
    const place = path.join(api.dataDir, 'files', file);
    await sweepErasedFiles({ database: api.database, dataDir: api.dataDir });
    expect(fs.existsSync(place)).toBe(!gone.includes(used!.job));
    expect(await rows('SELECT sha256 FROM stored_file WHERE sha256 = $1', [file])).toHaveLength(1);
  });
  it('keeps ledger, audit trail and the skeleton of each job, and every proof holds', async () => {
    while ((await sealAudit(api.database, { limit: 5_000 })) > 0);
    expect(await skeleton()).toEqual(before);
    expect(await failing()).toEqual([]);
  });
  it('answers by one sentence for the job, and breaks no list and no page', async () => {
    const one = await api.send('harriet', 'GET', `/api/jobs/${gone[0]}`);
    expect([one.status, one.body.code]).toEqual([404, 'job-disposed']);
    expect(one.body.title ?? one.body.detail).toBeTruthy();
    const broken: string[] = [];
    for (const route of (await allRoutes()).filter((r: Route) => r.method === 'GET' && !r.path.includes(':'))) {
      const answer = await api.send('harriet', 'GET', route.path);
      if (answer.status >= 500) broken.push(`${route.path} ${answer.status}`);
    }
    for (const [kind, sql] of Object.entries(THINGS))
      for (const { id } of await rows<{ id: string }>(`${sql} AND job_id = ANY ($1::uuid[]) LIMIT 3`, [gone]))
        for (const route of (await allRoutes()).filter(
          (r: Route) => r.method === 'GET' && r.path.startsWith(`/api/${kind}/:`) && !/:.*:/.test(r.path),
        )) {
          const answer = await api.send('harriet', 'GET', route.path.replace(/:\w+/, id));
          if (answer.status >= 500) broken.push(`${route.path} ${answer.status}`);
        }
    expect(broken).toEqual([]);
  }, 120_000);
  it('does it once', async () => {
    const again = await dispose([{ kind: 'job', id: gone[0]! }]);
    expect([again.status, again.body.code]).toEqual([409, 'disposed-already']);
  });
});

const THINGS = {
  jobs: 'SELECT id::text AS id FROM (SELECT id, id AS job_id FROM job) x WHERE true',
  callbacks: 'SELECT id::text AS id FROM callback WHERE true',
  agreements: 'SELECT id::text AS id FROM agreement WHERE true',
  reports: 'SELECT id::text AS id FROM report WHERE true',
  invoices: 'SELECT id::text AS id FROM invoice WHERE true',
  visits: 'SELECT id::text AS id FROM visit WHERE true',
};
