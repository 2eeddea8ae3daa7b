// serve: the database (built-in or given), migrations, the demo firm, the server, the clock's jobs; and closing them in order.
import fs from 'node:fs';
import path from 'node:path';
import type { FastifyInstance } from 'fastify';
import { startEmbedded, type EmbeddedServer } from '@backsight/store/embedded/server';
import { OF_THE_DAY, openDatabase } from '@backsight/store/database';
import { migrate } from '@backsight/store/migrate';
import { secretKey } from '@backsight/store/secretKey';
import { createRunner } from '@backsight/usecases/run';
import { uuidv7 } from '@backsight/usecases/ids';
import { losePlans } from '@backsight/usecases/schedule/endPlan';
import { buildApp } from '../app.ts';
import { startClockJobs } from '../clock.ts';
import { createPlanner } from '../jobs/planner.ts';
import { backupBeforeChanges } from './beforeChanges.ts';
import type { Context } from './context.ts';
import type { DemoFirm } from './demoFirm.ts';
import { demoPast } from './demoPast.ts';
import { setUpParts } from './setUpCode.ts';

/**
 * Starts everything; the returned function stops it again, HTTP first and the database last, and `endsBy` hears at once what it is ended by.
 * `demo` is under way already where there is no firm.
 */
export async function serve(context: Context, demo: DemoFirm, endsBy: (end: () => Promise<void>) => void): Promise<() => Promise<void>> {
  const { config, root, say } = context;
  const closers: (() => Promise<void>)[] = [];
  const stop = async () => {
    await demo.end(); // before the database that it writes into
    for (const close of closers.splice(0).reverse()) await close().catch((error) => console.error(error));
  };
  let stopping = false;
  const drain = async () => {
    stopping = true;
    await sleep(config.drainSeconds * 1000);
    await stop();
  };
  endsBy(drain);
  try {
    const url = await databaseUrl(context, closers);
    await upToDate(context, url);
    let app: FastifyInstance | undefined;
    const database = await openDatabase(url, { patience: OF_THE_DAY, slow: (one) => app?.log.warn(one, 'a statement took long') });
    closers.push(database.close);
    const clock = () => new Date();
    const parts = { database, clock, newId: () => uuidv7(clock()), publicUrl: config.publicUrl };
    const runner = createRunner(parts);
    const signIns = await demo.load({ ...parts, url, runner });
    const past = await demoPast({ url, root, database, clock, say });
    const key = secretKey(config.dataDir);
    const setUp = await setUpParts(database.read, config, key, say);
    if (!config.databaseUrl) await runner.run(losePlans, { until: clock() }, { actor: { kind: 'service' } }); // elsewhere another may make them
    const planner = createPlanner({ ...parts, runner }, { workerFile: path.join(root, 'apps/api/dist/planner-worker.js') });
    closers.push(() => planner.close());
    const services = {
      ...parts,
      runner,
      config,
      version: context.version,
      setUp,
      planner,
      lastRuns: new Map<string, Date>(),
      stopping: () => stopping,
      failed: (job: string, error: unknown) => app?.log.error({ err: error, job }, 'a job of the clock failed'),
      secretKey: key,
      pastPercent: past.percent,
    };
    await context.webApp;
    app = await buildApp(services, path.join(root, 'apps/web/dist'));
    await app.listen({ host: config.host, port: config.port });
    closers.push(together(app.close.bind(app), startClockJobs(services), past.stop));
    past.start();
    say(`\nBacksight is ready at ${config.publicUrl}`);
    for (const line of signIns) say(line);
    return stop;
  } catch (error) {
    await stop();
    if (stopping) return stop; // what was under way broke off
    throw error;
  }
}

/** A mail that takes its time must keep no request from being answered. */
const together =
  (...stops: (() => Promise<void>)[]) =>
  async (): Promise<void> =>
    void (await Promise.all(stops.map((stop) => stop())));

async function upToDate(context: Context, url: string): Promise<void> {
  await backupBeforeChanges(context, url);
  const applied = await migrate(url, path.join(context.root, 'prisma/migrations'));
  if (applied.length > 0) context.say(`database brought up to date (${applied.length} changes)`);
}

async function databaseUrl({ config, root, say }: Context, closers: (() => Promise<void>)[]): Promise<string> {
  if (config.databaseUrl) return config.databaseUrl;
  const server: EmbeddedServer = await startEmbedded({
    dataDir: config.dataDir,
    from: path.join(root, 'packages/store/package.json'),
    log: say,
  });
  closers.push(server.stop);
  void server.lost.then(() => {
    // Whoever starts the service again starts the database with it; going on without one would only say no to everybody.
    console.error('The built-in database has ended by itself. The service ends too; start it again.');
    process.exit(1);
  });
  if (!config.demo && path.dirname(config.dataDir) === root && fs.existsSync(path.join(root, '.git'))) {
    say(
      `Note: the firm's data lies inside the program's folder (${path.relative(root, config.dataDir)}). Set DATA_DIR to a folder of its own that is backed up.`,
    );
  }
  return server.url('postgres');
}

const sleep = (ms: number): Promise<void> => (ms === 0 ? Promise.resolve() : new Promise((resolve) => setTimeout(resolve, ms)));
