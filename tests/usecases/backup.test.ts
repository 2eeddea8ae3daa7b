// A backup and its way back: every row, every file and every rule; proof that finds what was changed; and what is said of a file that cannot be used.
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import zlib from 'node:zlib';
import pg from 'pg';
import { extract } from 'tar-stream';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sealAudit } from '@backsight/store/audit';
import { checkArchive, readArchive, writeArchive } from '@backsight/store/backup/archive';
import { migrationsOf } from '@backsight/store/backup/load';
import { copyIn } from '@backsight/store/copy';
import type { Database } from '@backsight/store/database';
import { readMigrations } from '@backsight/store/migrate';
import { secretKey } from '@backsight/store/secretKey';
import { storeFile } from '@backsight/store/sitework/files';
import { makeBackup } from '@backsight/usecases/backup/makeBackup';
import { restoreBackup } from '@backsight/usecases/backup/restoreBackup';
import { verify, type Finding } from '@backsight/usecases/backup/verify';
import { changeMoneyRules } from '@backsight/usecases/fees/terms';
import { backupBeforeChanges } from '../../apps/api/src/commands/beforeChanges.ts';
import { readConfig } from '../../apps/api/src/config.ts';
import { demoFor } from '../../prisma/seed/demo/demo.ts';
import { loadTables } from '../../prisma/seed/demo/load.ts';
import { PEOPLE, actorOf } from '../../prisma/seed/demo/people.ts';
import { testService, type TestService } from '../support/database.ts';

const NOW = new Date('2026-05-13T16:30:00Z');
const PASSPHRASE = 'heron on the north pier';
const migrations = path.resolve(import.meta.dirname, '../../prisma/migrations');
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-backup-'));
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));
const place = (name: string): string => path.join(folder, name);
const quiet = () => {};
const PAPER = Buffer.from('%PDF-1.7 a paper of the firm');

const tablesOf = (database: Database) =>
  database.read.rows<{ name: string }>(
    `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' AND tablename NOT IN ('_prisma_migrations', 'session')`,
  );
async function everything(database: Database): Promise<Record<string, string>> {
  const sums = (await tablesOf(database)).map(
    ({ name }) =>
      `SELECT '${name}' AS name, count(*) || ' ' || coalesce(md5(string_agg(t::text, E'\\n' ORDER BY t::text)), '') AS sum FROM "${name}" t`,
  );
  const found = await database.read.rows<{ name: string; sum: string }>(sums.join(' UNION ALL '));
  return Object.fromEntries(found.map(({ name, sum }) => [name, sum]));
}
/** Constraints, triggers, indexes and rights, as the catalog tells them. */
const rules = (database: Database) =>
  database.read.rows(
    `SELECT conrelid::regclass::text || ' ' || conname || ' ' || pg_get_constraintdef(oid) || ' ' || convalidated AS rule FROM pg_constraint WHERE connamespace = 'public'::regnamespace
     UNION ALL SELECT tgrelid::regclass::text || ' ' || tgenabled::text || ' ' || pg_get_triggerdef(oid) FROM pg_trigger WHERE NOT tgisinternal
     UNION ALL SELECT indexdef FROM pg_indexes WHERE schemaname = 'public'
     UNION ALL SELECT relname || ' ' || relacl::text FROM pg_class WHERE relnamespace = 'public'::regnamespace ORDER BY 1`,
  );
const wrongIn = (findings: Finding[]): Record<string, string[]> =>
  Object.fromEntries(findings.filter(({ wrong }) => wrong.length > 0).map(({ what, wrong }) => [what, wrong]));
const said = (promise: Promise<unknown>): Promise<string> =>
  promise.then(
    () => 'nothing',
    (error: Error) => error.message.replaceAll(folder, ''),
  );

describe('a backup of sixteen jobs of the demo firm', () => {
  const [from, to] = [testService(), testService()];
  const backUp = (name: string, passphrase: string | null = null, service: TestService = from) =>
    makeBackup({ url: service.url, dataDir: place('from'), file: place(name), passphrase, version: '0.1.0', clock: () => NOW, say: quiet });
  const bringBack = async (name: string, passphrase: string | null = null) => {
    const manifest = await checkArchive(place(name), passphrase);
    const ask = { url: to.url, dataDir: place('to'), file: place(name), passphrase, manifest, migrations, clock: () => NOW, say: quiet };
    return restoreBackup(ask);
  };
  beforeAll(async () => {
    const { tables } = await demoFor(NOW, { publicUrl: 'http://127.0.0.1:4800', passwordHash: 'x', jobs: 16, pastDays: 0 });
    await copyIn(from.url, (session) => loadTables(session, tables, NOW, ['invoice', 'ledgerEntry']));
    while ((await sealAudit(from.database, { limit: 5_000 })) > 0);
    const sha256 = await storeFile(place('from'), PAPER);
    secretKey(place('from'));
    await from.database.transaction(({ db }) =>
      db.storedFile.create({ data: { sha256, mediaType: 'application/pdf', bytes: PAPER.length, name: 'paper.pdf', recordedAt: NOW } }),
    );
  }, 120_000);

  it('is read back, can be opened by any program for tar archives, and by its owner alone', async () => {
    const { firm, tables, entries } = await backUp('plain.tar.gz');
    expect([firm, tables.length > 150, entries.length > 60]).toEqual(['Hollin Grebe House Inspection', true, true]);
    expect(fs.statSync(place('plain.tar.gz')).mode & 0o077).toBe(0);
    const names: string[] = [];
    const tar = extract();
    fs.createReadStream(place('plain.tar.gz'))
      .pipe(zlib.createGunzip())
      .pipe(tar as unknown as NodeJS.WritableStream);
    for await (const entry of tar) {
      names.push(entry.header.name);
      entry.resume();
    }
    expect(names, 'the key of the installation is in encrypted ones alone').not.toContain('secret.key');
    expect(names).toEqual([...entries.map(({ name }) => name), 'manifest.json']);
  });

  it('comes back elsewhere with every row, every file and every rule, while the firm goes on working', async () => {
    const before = await everything(from.database);
    const [row] = await from.database.read.rows<{ version: number }>('SELECT version FROM money_rules');
    const money = { severalPayers: true, depositPercent: 50, closingDays: 30, returnedFeeCents: 2_500 };
    const tax = { taxName: 'Sales tax', taxThousandths: 5_500, taxServices: [''], depositClosesGate: false, paidBeforeHandOver: true };
    let done = false;
    const backups = backUp('sealed', PASSPHRASE).finally(() => (done = true));
    for (let version = row!.version; !done; version++)
      expect(await from.runner.run(changeMoneyRules, { ...money, ...tax, version }, { actor: actorOf(PEOPLE.owner) })).toMatchObject({
        ok: true,
      });
    await backups;
    const findings = await bringBack('sealed', PASSPHRASE);
    expect([findings.length, wrongIn(findings)]).toEqual([7, {}]);
    const [here, there] = [await everything(from.database), await everything(to.database)];
    const worked = Object.keys(here).filter((table) => here[table] !== before[table]);
    expect(worked).toEqual(expect.arrayContaining(['audit_row', 'money_rules']));
    const still = (sums: Record<string, string>) =>
      Object.fromEntries(Object.entries(sums).filter(([table]) => !worked.includes(table) && table !== 'outgoing_mail'));
    expect(still(there)).toEqual(still(here));
    expect(await rules(to.database)).toEqual(await rules(from.database));
    expect(fs.readdirSync(place('to/files'))).toEqual(fs.readdirSync(place('from/files')));
    expect([secretKey(place('to')).equals(secretKey(place('from'))), fs.statSync(place('to/secret.key')).mode & 0o077]).toEqual([true, 0]);
    const [mail] = await to.database.read.rows(`SELECT count(*) FILTER (WHERE state = 'waiting')::int AS waiting FROM outgoing_mail`);
    expect(mail, 'nothing is sent twice').toEqual({ waiting: 0 });
  }, 60_000);

  it('says what it is: damaged, cut off, encrypted, of another passphrase, no backup, of a newer version', async () => {
    const bytes = fs.readFileSync(place('sealed'));
    const write = (name: string, content: Uint8Array) => fs.writeFileSync(place(name), content);
    write('cut', fs.readFileSync(place('plain.tar.gz')).subarray(0, 5_000));
    write(
      'flipped',
      bytes.map((byte, at) => (at === bytes.length - 300 ? byte ^ 1 : byte)),
    );
    write('text', Buffer.from('Dear Harriet'));
    await writeArchive(place('strange'), null, async (add) => {
      await add('tables/firm/000001.copy', Buffer.from('x'));
      return { madeAt: 'today', version: '9', firm: null, migrations: [], tables: [], filesMissing: [] };
    }).catch(quiet);
    expect(await said(checkArchive(place('cut'), null))).toMatch(/^\/cut cannot be read: unexpected end/i);
    expect(await said(checkArchive(place('flipped'), PASSPHRASE))).toBe(
      '/flipped cannot be read: the passphrase is another, or the file is damaged.',
    );
    expect(await said(checkArchive(place('sealed'), 'another passphrase'))).toBe(
      '/sealed cannot be read: the passphrase is another, or the file is damaged.',
    );
    expect(await said(checkArchive(place('sealed'), null))).toBe('/sealed is encrypted: set BACKUP_PASSPHRASE to its passphrase.');
    expect(await said(checkArchive(place('text'), null))).toMatch(/^\/text cannot be read: incorrect header check/);
    expect(await said(checkArchive(place('strange'), null))).toBe('/strange was made by a newer version of Backsight, or is no backup.');
    expect(await said(checkArchive(place('none'), null))).toBe('There is no file /none.');
    const manifest = await checkArchive(place('sealed'), PASSPHRASE);
    const ours = readMigrations(migrations);
    expect(migrationsOf({ ...manifest, migrations: manifest.migrations.slice(0, -2) }, ours)).toHaveLength(ours.length - 2);
    expect(() => migrationsOf(manifest, ours.slice(0, -1))).toThrow(/which this version does not know/);
    expect(fs.readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('leaves what is there when a row of it breaks a rule', async () => {
    const before = await everything(to.database);
    const { entries: _, ...manifest } = await checkArchive(place('plain.tar.gz'), null);
    const tables = manifest.tables.map((table) => (table.name === 'party' ? { ...table, rows: 0 } : table));
    await writeArchive(place('orphans'), null, async (add) => {
      for await (const { name, bytes } of readArchive(place('plain.tar.gz'), null))
        if (!name.startsWith('tables/party/')) await add(name, bytes);
      return { ...manifest, tables };
    });
    expect(await said(bringBack('orphans'))).toMatch(/violates foreign key constraint/);
    expect(await everything(to.database)).toEqual(before);
  });

  it('is made by itself before a newer version changes the database, and the newest five of these are kept', async () => {
    const root = place('newer');
    fs.cpSync(migrations, path.join(root, 'prisma/migrations'), { recursive: true });
    const context = { config: readConfig({ DATA_DIR: place('home') }, '/'), root, version: '0.2.0', say: quiet };
    await backupBeforeChanges(context, from.url);
    expect(fs.existsSync(place('home'))).toBe(false);
    fs.cpSync(path.join(migrations, '0001_records'), path.join(root, 'prisma/migrations/9999_more'), { recursive: true });
    fs.mkdirSync(place('home/backups'), { recursive: true });
    for (let day = 1; day <= 6; day++) fs.writeFileSync(place(`home/backups/before-changes-2020-01-0${day}T000000Z.tar.gz`), '');
    await backupBeforeChanges(context, from.url);
    const kept = fs.readdirSync(place('home/backups')).sort();
    expect([kept.length, kept[0]]).toEqual([5, 'before-changes-2020-01-03T000000Z.tar.gz']);
    expect((await checkArchive(place(`home/backups/${kept[4]}`), null)).version).toBe('0.2.0');
  });

  it('is not needed to find what somebody changed past the service', async () => {
    const owner = new pg.Client(to.url);
    await owner.connect();
    const changes = owner.query(
      `SET session_replication_role = replica;
       UPDATE ledger_line SET cents = cents + 1 WHERE ctid = (SELECT ctid FROM ledger_line ORDER BY entry_id, position LIMIT 1);
       UPDATE kept_text SET body = body || '.' WHERE id = (SELECT id FROM kept_text WHERE body IS NOT NULL ORDER BY id LIMIT 1);
       UPDATE step_entry SET observed_at = observed_at - interval '1 hour' WHERE id = (SELECT e.id FROM step_entry e JOIN site_record r ON r.id = e.record_id WHERE r.state = 'sealed' ORDER BY e.id LIMIT 1);
       UPDATE audit_row SET operation = 'x' WHERE id = (SELECT audit_id FROM audit_seal ORDER BY seal_no LIMIT 1 OFFSET 3);
       ALTER TABLE ledger_line DISABLE TRIGGER USER;
       DELETE FROM person_role WHERE person_id = '${PEOPLE.owner.id}'; DELETE FROM person WHERE id = '${PEOPLE.owner.id}'`,
    );
    await changes.finally(() => owner.end());
    fs.writeFileSync(place(`to/files/${createHash('sha256').update(PAPER).digest('hex')}`), 'another paper');
    const wrong = wrongIn(await verify({ reader: to.database.read, dataDir: place('to'), say: quiet }));
    expect(Object.keys(wrong)).toEqual([
      'chain of the audit trail',
      'entries of the ledger are balanced',
      'words fit the digests that the records keep of them',
      'sealed site records fit their seals',
      'stored files are there and fit their fingerprints',
      'checks, foreign keys and unique columns',
      'triggers, indexes and rules of the database are in force',
    ]);
    expect(wrong['chain of the audit trail']).toEqual(['broken at seal 4']);
  });
});
