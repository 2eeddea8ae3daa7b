// What ten years cost: every page of the service, and everything that the clock does, at a whole firm against a tenth of it; then
// how many bytes a job leaves behind, and which indexes nothing used. The two sizes are taken turn about, so that what else the
// machine does is in both. A page whose answer grows with the firm (a week of all people) has its sizes beside its times.
import pg from 'pg';
import { CLOCK_JOBS } from '../../apps/api/src/clock.ts';
import { allRoutes } from '../support/contracts.ts';
import { quantile, TOGETHER, type Bench, type Row } from './bench.ts';
import { bothOf, SIZES, type Firm } from './firm.ts';
import { pagesOf } from './pages.ts';
import { withYears } from './years/databases.ts';

const WARM = 2;
/** A page that is as fast at both sizes is asked so often, another one until the larger number. */
const [TURNS, MOST_TURNS] = TOGETHER ? [3, 6] : [5, 15];
/** A slow page is asked no more once it took so many milliseconds in all, but three times. */
const [ENOUGH_MS, FEWEST_TURNS] = [TOGETHER ? 500 : 4_000, 3];
const CALM = 1.15;
const GOAL = 1.5;

type Figures = { tenth: number; whole: number; p95?: number; tenthKB?: number; wholeKB?: number };
const lineOf = (what: string, { tenth, whole, p95, tenthKB, wholeKB }: Figures): Row => ({
  what,
  tenth,
  whole,
  p95: p95 ?? null,
  ratio: whole / tenth,
  tenthKB: tenthKB ?? null,
  wholeKB: wholeKB ?? null,
});

type Ask = (firm: Firm) => Promise<{ ms: number; kB: number }>;

async function compare(tenth: Firm, whole: Firm, ask: Ask): Promise<Figures> {
  const [small, large]: [number[], number[]] = [[], []];
  let [tenthKB, wholeKB] = [0, 0];
  const ratio = () => quantile(large, 0.5) / quantile(small, 0.5);
  const began = performance.now();
  const wanted = (turn: number): boolean => turn < WARM + TURNS || (turn < WARM + MOST_TURNS && ratio() > CALM);
  const affordable = (turn: number): boolean => turn < WARM + FEWEST_TURNS || performance.now() - began < ENOUGH_MS;
  for (let turn = 0; wanted(turn) && affordable(turn); turn++) {
    const [a, b] = [await ask(tenth), await ask(whole)];
    [tenthKB, wholeKB] = [a.kB, b.kB];
    if (turn < WARM) continue;
    small.push(a.ms);
    large.push(b.ms);
  }
  return { tenth: quantile(small, 0.5), whole: quantile(large, 0.5), p95: quantile(large, 0.95), tenthKB, wholeKB };
}

/** Every page; returns how many there are and how many are over the goal. */
async function pages(tenth: Firm, whole: Firm, say: (row: Row) => void): Promise<void> {
  const ratios: number[] = [];
  for (const { path, who } of await pagesOf(tenth, await allRoutes())) {
    const figures = await compare(tenth, whole, (firm) => firm.get(path, who));
    ratios.push(figures.whole / figures.tenth);
    say(lineOf(`${path} (${who})`, figures));
  }
  say(lineOf(`pages, and those over ${GOAL}`, { tenth: ratios.length, whole: ratios.filter((one) => one > GOAL).length }));
  say(lineOf('median of the ratios', { tenth: 1, whole: quantile(ratios, 0.5) }));
}

/** What the clock does, once it has caught up. */
async function clock(tenth: Firm, whole: Firm, say: (row: Row) => void): Promise<void> {
  const run = (at: number) => async (firm: Firm) => {
    const began = performance.now();
    await CLOCK_JOBS[at]!.run(firm.services).catch(() => null);
    return { ms: performance.now() - began, kB: 0 };
  };
  for (const [at, { name }] of CLOCK_JOBS.entries()) {
    const { tenth: a, whole: b, p95 } = await compare(tenth, whole, run(at));
    say(lineOf(`clock: ${name}`, { tenth: a, whole: b, p95 }));
  }
}

const SIZES_OF = `SELECT relname AS name, pg_table_size(relid)::float8 AS rows, pg_indexes_size(relid)::float8 AS indexes FROM pg_stat_user_tables`;
const LARGEST = 10;

/** Bytes of a job in the ten largest tables, without and with what their indexes take: what the whole firm has more than a tenth. */
async function growth(tenth: Firm, whole: Firm, say: (row: Row) => void): Promise<void> {
  const jobs = (await whole.rows('job')) - (await tenth.rows('job'));
  type Size = { name: string; rows: number; indexes: number };
  const before = new Map((await tenth.database.read.rows<Size>(SIZES_OF)).map((one) => [one.name, one]));
  const grown = (await whole.database.read.rows<Size>(SIZES_OF))
    .map(({ name, rows, indexes }) => ({ name, rows: rows - before.get(name)!.rows, indexes: indexes - before.get(name)!.indexes }))
    .sort((a, b) => b.rows + b.indexes - a.rows - a.indexes);
  for (const { name, rows, indexes } of grown.slice(0, LARGEST))
    say(lineOf(`${name}: bytes of a job, without and with indexes`, { tenth: rows / jobs, whole: (rows + indexes) / jobs }));
  const all = (of: 'rows' | 'indexes') => grown.reduce((sum, one) => sum + one[of], 0);
  say(lineOf('all tables: bytes of a job', { tenth: all('rows') / jobs, whole: (all('rows') + all('indexes')) / jobs }));
}

/** Indexes that nothing used since the statistics were reset; those that keep a constraint or serve a foreign key have their reason. */
const UNUSED = `
  SELECT s.indexrelname AS name, pg_relation_size(s.indexrelid)::float8 / 1000 AS "kB" FROM pg_stat_user_indexes s JOIN pg_index i USING (indexrelid)
  WHERE s.idx_scan = 0 AND NOT i.indisunique AND NOT EXISTS (SELECT FROM pg_constraint c WHERE c.conindid = i.indexrelid)
    AND NOT EXISTS (SELECT FROM pg_constraint f WHERE f.contype = 'f' AND f.conrelid = i.indrelid AND f.conkey[1] = i.indkey[0] AND i.indpred IS NULL)
  ORDER BY pg_relation_size(s.indexrelid) DESC`;

/** How often each index is used counts from now on. */
async function countAnew(url: string): Promise<void> {
  const owner = new pg.Client({ connectionString: url });
  await owner.connect();
  await owner.query('SELECT pg_stat_reset()');
  await owner.end();
}

const TABLES = ['job', 'step_entry', 'callback', 'outgoing_mail', 'audit_row', 'job_event', 'callback_event'];
const INSPECTORS = `(SELECT DISTINCT person_id FROM person_role WHERE role = 'inspector') AS inspectors`;

const bench: Bench = {
  about: 'every page and every job of the clock, ms, at a firm of ten years and at a tenth of it; the goal is a ratio of 1.5',
  run: async (say, named) => {
    const server = await withYears(SIZES, named, console.log);
    if (server === null) return say({ what: 'not made yet: npm run bench -- scale' });
    const [tenth, whole] = await bothOf(server);
    for (const table of [INSPECTORS, ...TABLES])
      say(lineOf(`rows of ${table.split(' ').at(-1)!}`, { tenth: await tenth.rows(table), whole: await whole.rows(table) }));
    await countAnew(server.urls[1]!);
    await pages(tenth, whole, say);
    await clock(tenth, whole, say);
    await growth(tenth, whole, say);
    for (const { name, kB } of await whole.database.read.rows<{ name: string; kB: number }>(UNUSED))
      say(lineOf(`unused index ${name}, kB`, { tenth: kB, whole: kB }));
    await tenth.close();
    await whole.close();
    await server.stop();
  },
};
export default bench;
