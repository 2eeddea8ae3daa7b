// The program that makes the demo firm and loads its past, in a process of its own beside the service: whatever memory it takes goes with
// it, the service answers meanwhile, and the weeks are made while the database is.
import { openDatabase } from '@backsight/store/database';
import { demoFor, loadDemo, mayComeBehind, type Demo } from './demo.ts';
import { loadPastBehind } from './history/behind.ts';

export type Order =
  /** Makes the firm in memory; `now` in ms; `url`: the database that will take it, asked whether its past may come behind. */
  | { what: 'make'; now: number; publicUrl: string; url?: string }
  /** Loads what was made into the database at `url`; answers how many rows. */
  | { what: 'load'; url: string }
  /** Loads what is left of the past; answers whether it made it whole. */
  | { what: 'past'; url: string };
export type Report = { percent: number } | { done: number | boolean } | { failed: string };

const say = (report: Report): void => void process.send!(report);
let made: { demo: Demo; now: Date; behind: boolean } | null = null;

async function obey(order: Order): Promise<number | boolean> {
  if (order.what === 'make') {
    const [now, { publicUrl, url }] = [new Date(order.now), order];
    const behind = url === undefined || (await mayComeBehind(url));
    made = { demo: await demoFor(now, { publicUrl, behind }), now, behind };
    return true;
  }
  if (order.what === 'load') {
    if (!made) throw new Error('no firm was made that could be loaded');
    return loadDemo(order.url, made.demo.tables, made.now, made.behind);
  }
  const database = await openDatabase(order.url, { size: 1 });
  const progress = (percent: number) => say({ percent });
  const whole = await loadPastBehind({ url: order.url, reader: database.read, progress, stopped: () => false });
  await database.close();
  return whole;
}

process.on('message', (order: Order) => {
  obey(order).then(
    (done) => say({ done }),
    (error: unknown) => say({ failed: error instanceof Error ? (error.stack ?? error.message) : String(error) }),
  );
});
process.on('disconnect', () => process.exit(0)); // the service ended, or has no more to ask
process.on('SIGINT', () => {}); // Ctrl-C is for the service, which ends this too
