// A firm of many years as its people see it: the service in this process over one of the databases of the bench, and whoever asks.
import { openDatabase, type Database } from '@backsight/store/database';
import { createRunner } from '@backsight/usecases/run';
import { uuidv7 } from '@backsight/usecases/ids';
import { rebuildFigures } from '@backsight/usecases/liability/figures';
import { buildApp } from '../../apps/api/src/app.ts';
import type { Services } from '../../apps/api/src/http/services.ts';
import { DEMO_PASSWORD } from '../../prisma/seed/demo/demo.ts';
import { servicesOf } from '../support/services.ts';
import type { TestService } from '../support/database.ts';
import { YEARS_NOW, type YearsServer } from './years/databases.ts';

/** A firm of a hundred inspectors after eleven months, and after ten years: it grows by years, its people stay as many. */
export const SIZES = [
  { blocks: 4, teams: 20, crews: 10 },
  { blocks: 44, teams: 20, crews: 10 },
];
/** The owner, the office, the lead inspector and an inspector of the demo firm, by first name. */
export const ASKING = ['harriet', 'dolores', 'ruth', 'amos'] as const;
export type Asking = (typeof ASKING)[number];

export type Firm = {
  /** Asks for a page; milliseconds and size of the answer. @throws Error where the answer is none. */
  get: (path: string, who?: Asking) => Promise<{ ms: number; kB: number }>;
  /** The status of an answer. */
  status: (path: string, who: Asking) => Promise<number>;
  rows: (table: string) => Promise<number>;
  services: Services;
  database: Database;
  close: () => Promise<void>;
  /** Milliseconds that making all sums took; null where they were there. */
  rebuilt: number | null;
};

/** Makes the sums of a firm that has none yet, as its first night would. */
async function sumsOf(database: Database): Promise<number | null> {
  const [state] = await database.read.rows<{ made: boolean }>('SELECT isfinite(until) AND isfinite(steps_until) AS made FROM figure_state');
  if (state?.made) return null;
  const began = performance.now();
  await rebuildFigures({ database, clock: () => YEARS_NOW }, true);
  return performance.now() - began;
}

/** Opens the firm of a database. */
export async function firmAt(url: string): Promise<Firm> {
  const database = await openDatabase(url, { size: 6 });
  const clock = { now: YEARS_NOW };
  const newId = () => uuidv7(clock.now);
  const runner = createRunner({ database, clock: () => clock.now, newId, publicUrl: 'http://127.0.0.1:4800' });
  const rebuilt = await sumsOf(database);
  const services = servicesOf({ url, database, runner, clock, newId, holds: [] } as TestService);
  const app = await buildApp(services);
  const cookies = {} as Record<Asking, Record<string, string>>;
  for (const name of ASKING) {
    const payload = { email: `${name}@hollingrebe.example`, password: DEMO_PASSWORD };
    const signedIn = await app.inject({ method: 'POST', url: '/api/session', payload });
    cookies[name] = Object.fromEntries(signedIn.cookies.map((one) => [one.name, one.value]));
  }
  const ask = (path: string, who: Asking) => app.inject({ method: 'GET', url: path, cookies: cookies[who] });
  return {
    rebuilt,
    services,
    database,
    status: async (path, who) => (await ask(path, who)).statusCode,
    get: async (path, who = 'harriet') => {
      const from = performance.now();
      const reply = await ask(path, who);
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

/** Both sizes of a server. */
export const bothOf = async (server: YearsServer): Promise<[tenth: Firm, whole: Firm]> => [
  await firmAt(server.urls[0]!),
  await firmAt(server.urls[1]!),
];
