// How long the site record takes to open on a phone without signal: from the address to the first step that can be recorded. The app is
// kept by its service worker, the network is off and the processor slowed to a quarter, about that of a cheap phone.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { BrowserContext } from 'playwright-core';
import { openDatabase, type Database } from '@backsight/store/database';
import { startEmbedded } from '@backsight/store/embedded/server';
import { migrate } from '@backsight/store/migrate';
import { createRunner } from '@backsight/usecases/run';
import { uuidv7 } from '@backsight/usecases/ids';
import { buildApp } from '../../apps/api/src/app.ts';
import { DEMO_PASSWORD, seedDemo } from '../../prisma/seed/demo/demo.ts';
import { launchProfile } from '../support/browser.ts';
import type { TestService } from '../support/database.ts';
import { servicesOf } from '../support/services.ts';
import { quantile, type Bench } from './bench.ts';
import { builtWeb } from './webBuild.ts';

const ROOT = path.resolve(import.meta.dirname, '../..');
const OPENINGS = 9;
const SLOWED = 4;
const MOST = 1_000;
/** Half past eleven on a Wednesday in Wisconsin: somebody is on site. */
const NOW = new Date('2026-05-13T16:30:00Z');

/** Notes when the first step can be recorded: its button stands, and what was under way when it came is done. */
const WATCH = `(function look() {
  const steps = [...document.querySelectorAll('main section button')];
  if (steps.some((one) => /^(Done|Confirm all|Record \\d|None of these)/.test(one.textContent))) setTimeout(() => (document.documentElement.dataset.usable = performance.now()));
  else requestAnimationFrame(look);
})()`;

/** `cpu`: what of it the page's own thread worked. */
type Took = { wall: number; cpu: number };
type Firm = { url: string; database: Database; close: () => Promise<void> };

/** The demo firm on the morning of its first day, over the built app in `web`. */
async function firmIn(folder: string, web: string): Promise<Firm> {
  const server = await startEmbedded({ dataDir: folder, from: path.join(ROOT, 'packages/store/package.json') });
  const url = server.url('postgres');
  await migrate(url, path.join(ROOT, 'prisma/migrations'));
  await seedDemo(url, { now: NOW, publicUrl: 'http://127.0.0.1:4800', pastDays: 0 });
  const database = await openDatabase(url, 6);
  const clock = { now: NOW };
  const newId = () => uuidv7(clock.now);
  const runner = createRunner({ database, clock: () => clock.now, newId, publicUrl: 'http://127.0.0.1:4800' });
  const app = await buildApp(servicesOf({ url, database, runner, clock, newId, holds: [] } as TestService, { DATA_DIR: folder }), web);
  return {
    url: await app.listen({ host: '127.0.0.1', port: 0 }),
    database,
    close: async () => {
      await app.close();
      await database.close();
      await server.stop();
    },
  };
}

/** A record that is open, and who works on it. */
async function openRecord({ database }: Firm): Promise<{ id: string; email: string }> {
  const [found] = await database.read.rows<{ id: string; email: string }>(
    `SELECT r.id::text AS id, p.email FROM site_record r JOIN assignment v ON v.visit_id = r.visit_id JOIN person p ON p.id = v.person_id
     WHERE r.state = 'open' ORDER BY r.id, p.email LIMIT 1`,
  );
  if (!found) throw new Error('Nobody is on site in the demo firm.');
  return found;
}

/** Milliseconds until the first step of the record at `address` can be recorded, in a page of its own. */
async function open(phone: BrowserContext, address: string): Promise<Took> {
  const page = await phone.newPage();
  const session = await phone.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWED });
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  await page.addInitScript({ content: WATCH });
  await page.goto(address, { waitUntil: 'commit' });
  const wall = Number(await page.locator('html[data-usable]').getAttribute('data-usable'));
  const { metrics } = await session.send('Performance.getMetrics');
  await page.close();
  return { wall, cpu: 1_000 * metrics.find(({ name }) => name === 'TaskDuration')!.value };
}

/** Reads the record once with a connection, then cuts it and opens the record again and again. */
async function openings(firm: Firm, folder: string): Promise<Took[]> {
  const record = await openRecord(firm);
  const phone = await launchProfile(folder, { viewport: { width: 390, height: 844 }, timezoneId: 'America/Chicago' });
  const data = { email: record.email, password: DEMO_PASSWORD };
  await phone.request.post(`${firm.url}/api/session`, { data });
  const address = `${firm.url}/records/${record.id}`;
  const page = phone.pages()[0]!;
  await page.goto(address);
  await page.getByText(/^\d+ of \d+ recorded$/).waitFor();
  await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
  await page.waitForTimeout(2_000); // what was read is written down behind the screen
  await phone.setOffline(true);
  const took = [];
  for (let at = 0; at < OPENINGS; at += 1) took.push(await open(phone, address));
  await phone.close();
  return took;
}

const bench: Bench = {
  about: `milliseconds from an address without signal to the first step of the site record, processor slowed ${SLOWED} times; judged by the quickest, since whatever else the machine does only adds`,
  run: async (say) => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-opening-'));
    const web = builtWeb();
    const firm = await firmIn(path.join(folder, 'data'), web);
    try {
      const took = await openings(firm, path.join(folder, 'phone'));
      const walls = took.map(({ wall }) => wall);
      const quickest = Math.min(...walls);
      say({
        what: 'phone: site record, no signal',
        openings: took.length,
        'quickest ms': quickest,
        'median ms': quantile(walls, 0.5),
        'processor ms': Math.min(...took.map(({ cpu }) => cpu)),
        'most ms': MOST,
        verdict: quickest <= MOST ? 'within' : 'OVER',
      });
    } finally {
      await firm.close();
      for (const made of [folder, web]) fs.rmSync(made, { recursive: true, force: true });
    }
  },
};
export default bench;
