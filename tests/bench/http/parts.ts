// The parts of a service over one database of a bench, whose clock goes on from the instant at which the demo firm was made.
import { openDatabase } from '@backsight/store/database';
import { uuidv7 } from '@backsight/usecases/ids';
import { createRunner } from '@backsight/usecases/run';
import { buildApp } from '../../../apps/api/src/app.ts';
import type { TestService } from '../../support/database.ts';
import { servicesOf } from '../../support/services.ts';

type Over = {
  began: number;
  connections: number;
  /** A second server that answers what no transaction asks. */ reads?: string;
  /** Folder of the web app, where it is served too. */ web?: string;
};

/** The API over the database of `url`, which nothing listens to yet; `close` ends both. */
export async function apiOver(url: string, { began, connections, reads, web }: Over) {
  const first = await openDatabase(url, { size: connections });
  const second = reads === undefined ? null : await openDatabase(reads, { size: connections });
  const database = second === null ? first : { ...first, read: second.read };
  const ahead = began - Date.now();
  const clock = {
    get now(): Date {
      return new Date(Date.now() + ahead);
    },
  };
  const newId = () => uuidv7(clock.now);
  const runner = createRunner({ database, clock: () => clock.now, newId, publicUrl: 'http://127.0.0.1:4800' });
  const service: TestService = { url, database, runner, clock, newId, holds: [] };
  const app = await buildApp(servicesOf(service, { LOG_LEVEL: 'warn' }), web);
  await app.ready();
  return {
    app,
    close: async () => {
      await app.close();
      await first.close();
      await second?.close();
    },
  };
}
