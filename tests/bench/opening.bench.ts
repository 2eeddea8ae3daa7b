// How long the site record takes to open on a phone without signal: from the address to the first step that can be recorded. The app is
// kept by its service worker, the network is off and the processor slowed to a quarter, about that of a cheap phone.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { BrowserContext } from 'playwright-core';
import { DEMO_PASSWORD } from '../../prisma/seed/demo/people.ts';
import { launchProfile } from '../support/browser.ts';
import { TOGETHER, quantile, type Bench } from './bench.ts';
import { firmIn, openRecord, type Firm } from './firmOnSite.ts';
import { builtWeb } from './webBuild.ts';

const OPENINGS = TOGETHER ? 3 : 9;
const SLOWED = 4;
const MOST = 1_000;

/** Notes when the first step can be recorded: its button stands, and what was under way when it came is done. */
const WATCH = `(function look() {
  const steps = [...document.querySelectorAll('main section button')];
  if (steps.some((one) => /^(Done|Confirm all|Record \\d|None of these)/.test(one.textContent))) setTimeout(() => (document.documentElement.dataset.usable = performance.now()));
  else requestAnimationFrame(look);
})()`;

/** `cpu`: what of it the page's own thread worked. */
type Took = { wall: number; cpu: number };
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
