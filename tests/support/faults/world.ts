// A small firm with everything real: a PostgreSQL of its own, services as processes of their own, and relays between them that can cut.
import fs from 'node:fs';
import path from 'node:path';
import { openDatabase } from '@backsight/store/database';
import { migrate } from '@backsight/store/migrate';
import { uuidv7 } from '@backsight/usecases/ids';
import { ensureBuilt, ensureGenerated } from '../../../apps/api/scripts/lib.mjs';
import { withCast } from '../cast.ts';
import type { TestService } from '../database.ts';
import { dataFolder, freePort, startProgram, type Program } from '../program.ts';
import { withStarter } from '../starter.ts';
import { ownServer, type OwnServer } from './ownServer.ts';
import { startRelay, type Relay } from './relay.ts';

export type RunningService = { program: Program; port: number; base: string };

export type World = {
  server: OwnServer;
  /** Between the services and the database. */
  relay: Relay;
  /** Over the same database, past the relay, by the real clock: for making what the load works on, and for looking afterwards. */
  service: TestService;
  folder: string;
  /** Starts a service; on `port` where one is named, and by the program that `enter` names. */
  start: (env?: Record<string, string>, at?: { port?: number; enter?: readonly string[] }) => Promise<RunningService>;
  /** After the server was started again: where it is now. */
  reconnect: () => void;
  close: () => Promise<void>;
};

const MIGRATIONS = path.resolve(import.meta.dirname, '../../../prisma/migrations');

/** Makes the firm of the cast with the starter set. */
export async function faultWorld(): Promise<World> {
  ensureGenerated();
  ensureBuilt();
  const folder = dataFolder();
  const server = await ownServer(path.join(folder, 'database'));
  const [relay, past] = [await startRelay(server.port()), await startRelay(server.port())];
  const url = server.through(past.port);
  await migrate(url, MIGRATIONS);
  const service = {
    url,
    database: await openDatabase(url, { size: 4 }),
    clock: {
      get now() {
        return new Date();
      },
    },
    newId: () => uuidv7(new Date()),
    holds: [],
  } as unknown as TestService;
  withCast(service);
  withStarter(service);
  for (const { write } of service.holds) await write(service.database);
  const running: RunningService[] = [];
  return {
    ...{ server, relay, service, folder },
    start: async (env = {}, { port: given, enter = [] } = {}) => {
      const port = given ?? (await freePort());
      const own = { DATABASE_URL: server.through(relay.port), DATA_DIR: path.join(folder, 'data'), PORT: String(port) };
      const program = startProgram({ DEMO: '0', SECOND_FACTOR: 'nobody', LOG_LEVEL: 'fatal', ...own, ...env }, [], undefined, {
        script: 'container.mjs',
        enter,
      });
      const one = { program, port, base: `http://127.0.0.1:${port}` };
      running.push(one);
      await program.ready;
      return one;
    },
    reconnect: () => [relay, past].forEach((one) => one.to(server.port())),
    close: async () => {
      for (const { program } of running)
        if (program.process.exitCode === null && program.process.signalCode === null) program.process.kill('SIGKILL');
      await service.database.close();
      await Promise.all([relay.close(), past.close()]);
      await server.stop();
      fs.rmSync(folder, { recursive: true, force: true });
    },
  };
}
