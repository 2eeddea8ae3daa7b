// How long the pages of liabilities take for a firm of ten years, and what they take at a tenth of it: the same requests over HTTP
// in one process, the two sizes taken turn about. Rows of both sizes are counted first. The size of each answer is said beside its
// time: a page that names people, pairs or the callbacks of a month has more to show where there are more.
import { openDatabase } from '@backsight/store/database';
import { createRunner } from '@backsight/usecases/run';
import { uuidv7 } from '@backsight/usecases/ids';
import { rebuildFigures } from '@backsight/usecases/liability/figures';
import { buildApp } from '../../apps/api/src/app.ts';
import { DEMO_PASSWORD } from '../../prisma/seed/demo/demo.ts';
import { servicesOf } from '../support/services.ts';
import type { TestService } from '../support/database.ts';
import { quantile, type Bench } from './bench.ts';
import { withYears, YEARS_NOW } from './years/databases.ts';

const TENTH = { blocks: 43, teams: 2 };
const WHOLE = { blocks: 43, teams: 20 };
const TIMES = 40;
const WARM = 5;

type Firm = {
  get: (path: string) => Promise<{ ms: number; kB: number }>;
  rows: (table: string) => Promise<number>;
  close: () => Promise<void>;
  rebuilt: number;
};

async function firmAt(url: string): Promise<Firm> {
  const database = await openDatabase(url, 6);
  const clock = { now: YEARS_NOW };
  const newId = () => uuidv7(clock.now);
  const runner = createRunner({ database, clock: () => clock.now, newId, publicUrl: 'http://127.0.0.1:4800' });
  const began = performance.now();
  await rebuildFigures({ database, clock: () => clock.now }, true);
  const rebuilt = performance.now() - began;
  const app = await buildApp(servicesOf({ url, database, runner, clock, newId, holds: [] } as TestService));
  const cookiesOf = async (name: string): Promise<Record<string, string>> => {
    const payload = { email: `${name}@hollingrebe.example`, password: DEMO_PASSWORD };
    const { cookies } = await app.inject({ method: 'POST', url: '/api/session', payload });
    return Object.fromEntries(cookies.map((one) => [one.name, one.value]));
  };
  const [owner, inspector] = [await cookiesOf('harriet'), await cookiesOf('amos')];
  return {
    rebuilt,
    get: async (path) => {
      const from = performance.now();
      const reply = await app.inject({ method: 'GET', url: path, cookies: path === OWN ? inspector : owner });
      if (reply.statusCode !== 200) throw new Error(`${path}: ${reply.statusCode} ${reply.body.slice(0, 300)}`);
      return { ms: performance.now() - from, kB: reply.rawPayload.length / 1000 };
    },
    rows: async (table) => (await database.read.rows<{ n: number }>(`SELECT count(*)::int AS n FROM ${table}`))[0]!.n,
    close: async () => {
      await app.close();
      await database.close();
    },
  };
}

/** An inspector's own figures; the other pages are the owner's. */
const OWN = '/api/liability/people/own';
/** What the pages of liabilities ask for; the month and the step are among the busiest of the firm. */
export const PAGES = [
  '/api/liability',
  '/api/liability/entries',
  '/api/liability/entries?inspected=2026-03',
  '/api/liability/open-callbacks',
  '/api/liability/callbacks?inspected=2026-03',
  '/api/liability/overrides',
  '/api/liability/unsigned-starts',
  '/api/liability/held-jobs',
  '/api/liability/cash',
  '/api/liability/development',
  '/api/liability/development?of=incurred&by=month',
  '/api/liability/development?asOf=2024-06-30',
  '/api/liability/windows',
  '/api/liability/windows/jobs?inspected=2026-03',
  '/api/liability/frequency?by=month',
  '/api/liability/frequency?by=pair',
  '/api/liability/people',
  OWN,
  '/api/liability/steps',
  '/api/liability/steps/ground-fault-trip-reset',
  '/api/liability/outlook',
];

const bench: Bench = {
  about:
    'pages of liabilities over HTTP, ms, at ten years of 100 inspectors and at a tenth of that; the target is 300 ms at 95 % and a ratio of 1.5',
  run: async (say) => {
    const server = await withYears([TENTH, WHOLE], console.log);
    const [tenth, whole] = [await firmAt(server.urls[0]!), await firmAt(server.urls[1]!)];
    for (const table of ['job', 'step_entry', 'callback'])
      say({
        page: `rows of ${table}`,
        tenthP50: await tenth.rows(table),
        wholeP50: await whole.rows(table),
        wholeP95: null,
        ratio: null,
        tenthKB: null,
        wholeKB: null,
      });
    say({
      page: 'sums made anew, all of them',
      tenthP50: tenth.rebuilt,
      wholeP50: whole.rebuilt,
      wholeP95: null,
      ratio: whole.rebuilt / tenth.rebuilt,
      tenthKB: null,
      wholeKB: null,
    });
    for (const page of PAGES) {
      const [small, large]: [number[], number[]] = [[], []];
      let [tenthKB, wholeKB] = [0, 0];
      for (let turn = 0; turn < WARM + TIMES; turn++) {
        const [a, b] = [await tenth.get(page), await whole.get(page)];
        [tenthKB, wholeKB] = [a.kB, b.kB];
        if (turn < WARM) continue;
        small.push(a.ms);
        large.push(b.ms);
      }
      const [tenthP50, wholeP50] = [quantile(small, 0.5), quantile(large, 0.5)];
      say({ page, tenthP50, wholeP50, wholeP95: quantile(large, 0.95), ratio: wholeP50 / tenthP50, tenthKB, wholeKB });
    }
    await tenth.close();
    await whole.close();
    await server.stop();
  },
};
export default bench;
