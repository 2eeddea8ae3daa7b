// The demo firm: loaded whole or not at all, and what was made in memory is what the database would have held.
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { copyIn } from '@backsight/store/copy';
import type { Database } from '@backsight/store/database';
import { sealAudit, verifyAudit } from '@backsight/store/audit';
import { findEvents } from '@backsight/store/jobs/jobs';
import { rebuild } from '@backsight/domain/jobs/history';
import { rebuildCallback } from '@backsight/domain/callbacks/rebuild';
import { eventsOf } from '@backsight/store/callbacks';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { rebuildFigures } from '@backsight/usecases/liability/figures';
import { readOwner } from '@backsight/usecases/liability/owner/readOwner';
import { readCertificates } from '@backsight/usecases/mail/certificates';
import { readSealedRecord } from '@backsight/usecases/sitework/readRecord';
import { passwordFits } from '@backsight/usecases/people/steps/password';
import { DEMO_PASSWORD, demoFor, live, seedDemo } from '../../prisma/seed/demo/demo.ts';
import { certificatesOnFile } from '../../prisma/seed/demo/certificates.ts';
import { calendarOf } from '../../prisma/seed/demo/calendar.ts';
import { loadPastBehind } from '../../prisma/seed/demo/history/behind.ts';
import { nextPastNumber } from '../../prisma/seed/demo/history/left.ts';
import { FIRST_DAYS_AGO, FIRST_NUMBER, jobsWritten } from '../../prisma/seed/demo/history/history.ts';
import { comesBack } from '../../prisma/seed/demo/history/pastCallbacks.ts';
import { loadTables } from '../../prisma/seed/demo/load.ts';
import { all, insert } from '../../prisma/seed/demo/memory/tables.ts';
import { actorOf, PEOPLE } from '../../prisma/seed/demo/people.ts';
import { brokenConstraints } from '@backsight/store/backup/constraints';
import { testService } from '../support/database.ts';
import { reconcile } from '../support/reconcile.ts';

/** A Wednesday, 11:30 in the morning in Wisconsin: somebody is on site. */
const NOW = new Date('2026-05-13T16:30:00Z');
const publicUrl = 'http://127.0.0.1:4800';
/** So many jobs of the past are loaded behind, in two batches. */
/** What is looked at in three batches, of which two were begun at the same time; then what is left of the jobs in the calendar, and some of the years before. */
const [PAST_JOBS, MORE_BATCHES] = [50, 5];

const rows = <T>(database: Database, sql: string): Promise<T[]> => database.read.rows<T>(sql);
const count = async (database: Database, from: string): Promise<number> =>
  (await rows<{ n: number }>(database, `SELECT count(*)::int AS n FROM ${from}`))[0]!.n;

describe('the demo firm', () => {
  const service = testService();
  beforeAll(async () => {
    await seedDemo(service.url, { now: NOW, publicUrl });
  }, 240_000);

  it('loads its past behind in batches, goes on where it was stopped, and stops where a second service loads the same', async () => {
    const there = async () => [await count(service.database, 'job'), await count(service.database, 'site_record')] as const;
    const [jobs, records] = await there();
    /** Loads until so many batches were begun; answers the percents told and whether it made the past whole. */
    const load = async (batches: number) => {
      const percents: number[] = [];
      const progress = (percent: number) => void percents.push(percent);
      const { url, database } = service;
      return { whole: await loadPastBehind({ url, reader: database.read, progress, stopped: () => percents.length > batches }), percents };
    };
    const next = () => nextPastNumber(service.database.read);
    expect([await next(), await load(1), await next()]).toEqual([FIRST_NUMBER, { whole: false, percents: [0, 0] }, FIRST_NUMBER + 25]);
    const both = await Promise.allSettled([load(1), load(1)]);
    expect(both.map((one) => (one.status === 'fulfilled' ? one.value.whole : String(one.reason))).sort()).toEqual([
      'Error: another service loads the past of the demo firm',
      false,
    ]);
    expect(await next()).toBe(FIRST_NUMBER + PAST_JOBS);
    await load(MORE_BATCHES);
    const { before, beside } = jobsWritten(calendarOf(NOW), FIRST_DAYS_AGO);
    const looked = [...beside, ...before].slice(0, PAST_JOBS + MORE_BATCHES * 25);
    const whole = looked.filter((job) => !beside.includes(job) && !comesBack(job)).length;
    expect([whole > 0, beside.length < looked.length, await there()]).toEqual([
      true,
      true,
      [jobs + whole, records + beside.length + whole],
    ]);
  });

  it('has jobs in every state, and somebody on site', async () => {
    const states = Object.fromEntries(
      (await rows<{ state: string; n: number }>(service.database, 'SELECT state, count(*)::int AS n FROM job GROUP BY state')).map(
        ({ state, n }) => [state, n],
      ),
    );
    expect(Object.keys(states).sort()).toEqual(['booked', 'cancelled', 'ended', 'held', 'lapsed', 'on_site', 'reported', 'visited']);
    expect(states.reported).toBeGreaterThan(180);
    expect(states.booked).toBeGreaterThan(40);
    expect(states.held).toBe(3);
  });

  it('has an afternoon closed for weather with visits in it, promises over several days, and pick-ups booked as soon as their visit is', async () => {
    const hit = `weather_closure c JOIN visit v ON v.state = 'booked' AND v.starts_at < c.ends_at AND v.ends_at > c.starts_at WHERE c.lifted_at IS NULL`;
    expect(await count(service.database, hit)).toBeGreaterThan(0);
    const days = `visit WHERE state = 'booked' AND promised_until - promised_from > interval '1 day'`;
    expect(await count(service.database, days)).toBeGreaterThan(0);
    const open = `job j JOIN job_service s ON s.job_id = j.id AND s.service_key = 'radon' WHERE j.state IN ('booked', 'on_site', 'visited')
      AND NOT EXISTS (SELECT FROM visit v WHERE v.job_id = j.id AND v.kind = 'radon_pickup' AND v.live)`;
    expect(await count(service.database, open)).toBeLessThanOrEqual(4);
  });

  it('shows its owner numbers that agree with the ledger to the cent, and opens the rows behind each', async () => {
    await rebuildFigures({ database: service.database, clock: () => NOW }, true);
    expect(await reconcile(service.database.read, NOW)).toBeGreaterThan(20);
    const { toCome, cash } = await readOwner(service.database.read, { now: NOW, seeOwnerOnly: true });
    expect([toCome.ok, cash.days90.ok], 'what may still come was held too').toEqual([true, true]);
  });

  it("has the insurer's certificate of each policy in force on file, beside the database", async () => {
    const { runner, database, newId } = service;
    const directory = fs.mkdtempSync(path.join(os.tmpdir(), 'certificates-'));
    await certificatesOnFile({ reader: database.read, runner, newId, directory, now: NOW });
    const found = await readCertificates(database.read);
    expect(found.map(({ policy, name }) => [policy, name]).sort()).toEqual(
      ['GL-20-4472', 'PL-20-4471'].map((number) => [`Heron Mutual of Tamarack, ${number}`, `certificate-${number}.pdf`]),
    );
    fs.rmSync(directory, { recursive: true });
  });

  it('has callbacks in every state and of all kinds that the firm tells apart by its acts', async () => {
    const found = await rows<{ state: string; kind: string }>(service.database, 'SELECT state, kind FROM callback');
    expect(found.length).toBeGreaterThanOrEqual(12);
    expect(new Set(found.map(({ state }) => state))).toEqual(
      new Set(['received', 'acknowledged', 'looking_into', 'concluded', 'remedy_agreed', 'closed']),
    );
    expect(new Set(found.map(({ kind }) => kind))).toEqual(
      new Set(['missed', 'damage_or_injury', 'conduct', 'fee', 'demand_or_suit', 'question', 'near_miss']),
    );
  });

  it('tells the story of the thawed freezer: nine days, the failed step, a payment under a clearance, a revision in force', async () => {
    const [freezer] = await rows<Record<string, unknown>>(
      service.database,
      `SELECT c.state, c.binding, c.discovered_on - (v.starts_at AT TIME ZONE 'America/Chicago')::date AS days, x.cause, x.step_key AS step, r.number AS revision, e.value->'evidence'->>'option' AS answer, i.label AS item,
         (SELECT -sum(cents)::int FROM ledger_line l WHERE l.callback_id = c.id AND l.account = 'bank') AS paid, (SELECT a.state FROM corrective_action_callback k JOIN corrective_action a ON a.id = k.action_id WHERE k.callback_id = c.id) AS action,
         (SELECT q.number FROM corrective_action_callback k JOIN corrective_action a ON a.id = k.action_id JOIN procedure_revision q ON q.id = a.revision_id WHERE k.callback_id = c.id) AS next
       FROM callback c JOIN conclusion x ON x.callback_id = c.id JOIN procedure_revision r ON r.id = x.revision_id JOIN visit v ON v.job_id = c.job_id JOIN step_entry e ON e.id = x.entry_id JOIN record_item i ON i.id = e.item_id
       WHERE c.place LIKE '%freezer%'`,
    );
    expect(freezer).toMatchObject({
      state: 'closed',
      binding: true,
      days: 9,
      cause: 'not_in_procedure',
      step: 'ground-fault-trip-reset',
      revision: 2,
      answer: 'trips_resets',
      item: 'upstairs bath',
      paid: 38_640,
      action: 'done',
      next: 3,
    });
  });

  it('has three revisions that came from callbacks; one person has not acknowledged the newer one', async () => {
    expect(
      await count(
        service.database,
        `procedure_revision r JOIN in_force_period f ON f.revision_id = r.id WHERE r.number = 3 AND f.until_at IS NULL`,
      ),
    ).toBe(3);
    expect(
      (await missingAcknowledgements(service.database.read, NOW)).map(({ procedureTitle, number }) => `${procedureTitle} ${number}`),
    ).toEqual(['Attic and insulation 3']);
  });

  it('holds together: balances, reserves, chain of the audit trail, rows as their events tell them', async () => {
    expect(await rows(service.database, 'SELECT entry_id FROM ledger_line GROUP BY entry_id HAVING sum(cents) <> 0')).toEqual([]);
    while ((await sealAudit(service.database, { limit: 5_000 })) > 0);
    expect(await verifyAudit(service.database.read)).toMatchObject({ unsealed: 0, brokenAt: null });
    for (const job of await rows<{ id: string; state: string; version: number; facts: unknown }>(
      service.database,
      'SELECT id::text AS id, state, version, facts FROM job',
    )) {
      expect(rebuild(await findEvents(service.database.read, job.id))).toMatchObject({
        state: job.state,
        version: job.version,
        facts: job.facts,
      });
    }
    for (const callback of await rows<{ id: string; state: string; version: number }>(
      service.database,
      'SELECT id::text AS id, state, version FROM callback',
    )) {
      expect(rebuildCallback(await eventsOf(service.database.read, callback.id))).toMatchObject({
        state: callback.state,
        version: callback.version,
      });
    }
  }, 60_000);

  it('has a past of sealed records, reported and paid jobs, and callbacks that cost little or nothing', async () => {
    const past = `job j JOIN visit v ON v.job_id = j.id WHERE v.starts_at < '2026-02-14'`;
    const jobs = await count(service.database, past);
    expect(jobs).toBeGreaterThan(30);
    expect(await count(service.database, `${past} AND j.state = 'reported'`)).toBe(jobs);
    const books = await rows<{ number: number }>(
      service.database,
      `SELECT DISTINCT r.number FROM ${past.replace('WHERE', 'JOIN site_record d ON d.visit_id = v.id JOIN site_package k ON k.record_id = d.id JOIN package_step s ON s.package_id = k.id JOIN procedure_revision r ON r.id = s.revision_id WHERE')} ORDER BY 1`,
    );
    expect(books.map(({ number }) => number)).toEqual([1, 2, 3]);
    const [one] = await rows<{ id: string }>(service.database, `SELECT d.id::text AS id FROM site_record d ORDER BY d.opened_at LIMIT 1`);
    const owner = actorOf(PEOPLE.owner);
    expect(await readSealedRecord(service.database.read, { recordId: one!.id, actor: owner })).toMatchObject({
      ok: true,
      value: { seal: { holds: true } },
    });
    const paid = await rows<{ paid: number }>(
      service.database,
      `SELECT coalesce((SELECT -sum(l.cents) FROM ledger_line l WHERE l.callback_id = c.id AND l.account = 'bank'), 0)::int AS paid
       FROM callback c JOIN visit v ON v.job_id = c.job_id WHERE v.starts_at < '2026-02-14'`,
    );
    expect(paid.length).toBeGreaterThan(0);
    expect(paid.filter((one) => one.paid < 100_000).length / paid.length).toBeGreaterThan(0.9);
  });

  it('lets its people sign in', async () => {
    const [owner] = await rows<{ hash: string }>(
      service.database,
      `SELECT password_hash AS hash FROM person WHERE email = 'harriet@hollingrebe.example'`,
    );
    expect(await passwordFits(owner!.hash, DEMO_PASSWORD)).toBe(true);
  });
});

/** What chance makes: salts, links, and everything that is taken over them. */
const BY_CHANCE: Record<string, readonly string[]> = {
  kept_text: ['salt', 'digest'],
  signer: ['token_hash'],
  signature: ['ip_hash', 'link_hash'],
  sealed_paper: ['content', 'sha256'],
  site_record: ['seal_sha256'],
  outgoing_mail: ['body', 'state', 'attempts', 'sent_at', 'last_error', 'next_try_at'],
};

async function dump(database: Database, table: string): Promise<string[]> {
  const found = await rows<{ row: Record<string, unknown> }>(database, `SELECT to_jsonb(t) AS row FROM "${table}" t`);
  const details = (row: Record<string, unknown>) =>
    table === 'audit_row' && (row.details as { sealed?: string }).sealed
      ? { ...row, details: { ...(row.details as object), sealed: 'x' } }
      : row;
  return found
    .map(({ row }) =>
      JSON.stringify(
        Object.fromEntries(
          Object.entries(details(row))
            .filter(([key]) => !BY_CHANCE[table]?.includes(key))
            .sort(([a], [b]) => (a < b ? -1 : 1)),
        ),
      ),
    )
    .sort();
}

describe('sixteen jobs of the demo, played through the use cases on the real database', () => {
  const [loaded, played, broken] = [testService(), testService(), testService()];
  const life = { now: NOW, publicUrl, passwordHash: 'x', jobs: 16, pastDays: 0 };
  let demo: ReturnType<typeof demoFor>;
  beforeAll(() => {
    demo = demoFor(NOW, life);
  });
  it('leave the rows that were made in memory', async () => {
    const { tables, acts } = await demo;
    await copyIn(loaded.url, (session) => loadTables(session, tables, NOW, ['invoice', 'ledgerEntry']));
    expect(await live(played.database, life)).toBe(acts);
    const names = await rows<{ name: string }>(
      loaded.database,
      `SELECT table_name AS name FROM information_schema.tables WHERE table_schema = 'public' AND table_type = 'BASE TABLE' AND table_name NOT LIKE '\\_%' ORDER BY 1`,
    );
    for (const { name } of names.filter((table) => table.name !== 'bad_address'))
      expect(await dump(played.database, name), name).toEqual(await dump(loaded.database, name));
    expect(await count(loaded.database, 'step_entry')).toBeGreaterThan(800);
  }, 300_000);

  it('hold every check, foreign key and unique column where the load goes past the checks; a row that does not is found', async () => {
    const { tables } = await demo;
    const names = await rows<{ name: string }>(loaded.database, `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public'`);
    const every = names.map(({ name }) => name);
    expect(await brokenConstraints(loaded.database.read, every)).toEqual({ rules: expect.any(Number), broken: {} });
    const stray = { ...all(tables, 'ledgerLine')[0], entryId: randomUUID() };
    await copyIn(loaded.url, (session) => session.copyUnchecked('ledger_line', [stray]));
    const found = await brokenConstraints(loaded.database.read, ['ledger_line']);
    expect([found.rules > 5, found.broken]).toEqual([true, expect.objectContaining({ ledger_line_entry_id_fkey: 1 })]);
  }, 120_000);

  it('leave nothing behind when their load breaks off at its last tables', async () => {
    const { tables } = await demo;
    insert(tables, 'auditRow', { ...all(tables, 'auditRow')[0] });
    await expect(copyIn(broken.url, (session) => loadTables(session, tables, NOW))).rejects.toThrow(/audit_row_pkey/);
    expect([await count(broken.database, 'firm'), await count(broken.database, 'job')]).toEqual([0, 0]);
  }, 60_000);
});
