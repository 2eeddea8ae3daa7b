// What the tables grow by and what is left behind in them: the demo firm lives its twelve weeks, or a year where it is asked for by name, by
// acts in a real database, with PostgreSQL's usual vacuum. Rows and bytes are reckoned up to a year of a firm of the size that the scale bench has.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import pg from 'pg';
import { openDatabase } from '@backsight/store/database';
import { startEmbedded } from '@backsight/store/embedded/server';
import { migrate } from '@backsight/store/migrate';
import { live } from '../../prisma/seed/demo/demo.ts';
import type { Bench, Row } from './bench.ts';

const ROOT = path.resolve(import.meta.dirname, '../..');
const NOW = new Date('2026-05-13T16:30:00Z');
/** Of the plain jobs one in so many, and the twelve weeks of the demo firm, so that the bench ends in minutes; asked for by name it plays all jobs of a year. */
const QUICK = { oneIn: 4 };
const YEAR = { oneIn: 1, workdays: 250 };
/** Vacuum looks once a second at what it else looks at once a minute: a second of this bench is a day and more of the firm. */
const SOON = `ALTER SYSTEM SET autovacuum_naptime = '1s'`;
const JOBS_A_YEAR = 20_000;
const SHOWN = 24;
const MB = 1_048_576;

type Counted = { name: string; made: number; changed: number; hot: number; removed: number; dead: number; bytes: number };

const COUNTED = `SELECT relname AS name, n_tup_ins::float AS made, n_tup_upd::float AS changed, n_tup_hot_upd::float AS hot, n_tup_del::float AS removed, n_dead_tup::float AS dead,
  pg_total_relation_size(relid)::float AS bytes FROM pg_stat_user_tables ORDER BY bytes DESC`;

/** Counted once the server has heard of everything that was done. */
async function counted(owner: pg.Client): Promise<Counted[]> {
  await owner.query('SELECT pg_stat_force_next_flush(), pg_stat_clear_snapshot()');
  return (await owner.query<Counted>(COUNTED)).rows;
}

async function lived(url: string, how: typeof QUICK | typeof YEAR): Promise<void> {
  const database = await openDatabase(url, { size: 4 });
  await live(database, { now: NOW, publicUrl: 'http://127.0.0.1:4800', passwordHash: 'x', ...how });
  await database.close();
}

/** The same rows without what changed and removed ones left: what each table would take if it were written anew. */
async function compact(owner: pg.Client, names: readonly string[]): Promise<Map<string, number>> {
  for (const name of names) await owner.query(`VACUUM FULL "${name}"`);
  return new Map((await counted(owner)).map(({ name, bytes }) => [name, bytes]));
}

const rowOf = (jobs: number, t: Counted, compacted: number): Row => ({
  table: t.name,
  'made a job': t.made / jobs,
  'changed a job': t.changed / jobs,
  'in place': t.changed === 0 ? null : t.hot / t.changed,
  'removed a job': t.removed / jobs,
  'dead at the end': t.dead,
  kB: t.bytes / 1024,
  'to compact': t.bytes / compacted,
  'MB a year': ((t.bytes / jobs) * JOBS_A_YEAR) / MB,
});

const together = (tables: readonly Counted[], compacted: ReadonlyMap<string, number>): [Counted, number] => {
  const sum = (of: (t: Counted) => number) => tables.reduce((all, t) => all + of(t), 0);
  const numbers = { made: sum((t) => t.made), changed: sum((t) => t.changed), hot: sum((t) => t.hot), removed: sum((t) => t.removed) };
  return [{ name: 'all tables', ...numbers, dead: sum((t) => t.dead), bytes: sum((t) => t.bytes) }, sum((t) => compacted.get(t.name)!)];
};

const bench: Bench = {
  about: `rows made, changed and removed for each job while the demo firm lives twelve weeks (a year by name) in a real database; bytes beside the same tables written anew; MB a year at ${JOBS_A_YEAR} jobs`,
  run: async (say, named) => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-growth-'));
    const server = await startEmbedded({ dataDir: folder, from: path.join(ROOT, 'packages/store/package.json') });
    const url = server.url('postgres');
    await migrate(url, path.join(ROOT, 'prisma/migrations'));
    const owner = new pg.Client({ connectionString: url });
    await owner.connect();
    await owner.query(SOON);
    await owner.query('SELECT pg_reload_conf(), pg_stat_reset()');
    await lived(url, named ? YEAR : QUICK);
    const { rows } = await owner.query<{ n: number }>('SELECT count(*)::int AS n FROM job');
    const before = await counted(owner);
    const busy = before.filter(({ made, changed }) => made + changed > 0);
    const after = await compact(
      owner,
      busy.map(({ name }) => name),
    );
    for (const [table, bytes] of [together(busy, after), ...busy.slice(0, SHOWN).map((t) => [t, after.get(t.name)!] as const)])
      say(rowOf(rows[0]!.n, table, bytes));
    await owner.end();
    await server.stop();
    fs.rmSync(folder, { recursive: true });
  },
};

export default bench;
