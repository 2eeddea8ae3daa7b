// The demo firm on a working day, for benches that look at it with a browser.
import { openDatabase, type Database } from '@backsight/store/database';
import { createRunner } from '@backsight/usecases/run';
import { uuidv7 } from '@backsight/usecases/ids';
import { buildApp } from '../../apps/api/src/app.ts';
import type { TestService } from '../support/database.ts';
import { servicesOf } from '../support/services.ts';
import { withCopies } from './http/copies.ts';
import { YEARS_NOW } from './years/databases.ts';

export type Firm = { url: string; database: Database; close: () => Promise<void> };

/** The demo firm on the morning of its first day, over the built app in `web`; `folder` takes its files. */
export async function firmIn(folder: string, web: string): Promise<Firm> {
  const copies = await withCopies();
  const url = await copies.copy('on_site');
  const database = await openDatabase(url, { size: 6 });
  const clock = { now: YEARS_NOW };
  const newId = () => uuidv7(clock.now);
  const runner = createRunner({ database, clock: () => clock.now, newId, publicUrl: 'http://127.0.0.1:4800' });
  const app = await buildApp(servicesOf({ url, database, runner, clock, newId, holds: [] } as TestService, { DATA_DIR: folder }), web);
  return {
    url: await app.listen({ host: '127.0.0.1', port: 0 }),
    database,
    close: async () => {
      await app.close();
      await database.close();
      await copies.stop();
    },
  };
}

/** A record that is open, and who works on it. */
export async function openRecord({ database }: Firm): Promise<{ id: string; email: string }> {
  const [found] = await database.read.rows<{ id: string; email: string }>(
    `SELECT r.id::text AS id, p.email FROM site_record r JOIN assignment v ON v.visit_id = r.visit_id JOIN person p ON p.id = v.person_id
     WHERE r.state = 'open' ORDER BY r.id, p.email LIMIT 1`,
  );
  if (!found) throw new Error('Nobody is on site in the demo firm.');
  return found;
}
