// What somebody waits for in a browser on a slow line and a slow device: first and largest paint, the answer to a press, script, long tasks.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Browser, CDPSession, Page } from 'playwright-core';
import type { Week } from '@backsight/contract/schedule';
import { DEMO_PASSWORD, emailOf, PEOPLE } from '../../prisma/seed/demo/people.ts';
import { launch } from '../support/browser.ts';
import { TOGETHER, quantile, type Bench } from './bench.ts';
import { firmIn, openRecord, type Firm } from './firmOnSite.ts';
import { forty, PEOPLE_SHOWN } from './fortyPeople.ts';
import { builtWeb } from './webBuild.ts';

const TIMES = TOGETHER ? 1 : 3;
const SLOWED = 4;
/** 1.6 Mbit/s and 150 ms there and back: what browsers call a fast 3G. */
const LINE = { offline: false, downloadThroughput: 200_000, uploadThroughput: 93_750, latency: 150 };
const WIDE = { width: 1280, height: 900 };
const PHONE = { width: 390, height: 844 };
const KB = 1024;
/** Until nothing more came for so long, in ms, a screen is not whole. */
const QUIET = 1_000;

/** A machine that does other things too takes its time. */
const PATIENCE = 180_000;

type Look = {
  what: string;
  address: string;
  /** Who is signed in; null: nobody. */ as: string | null;
  phone?: boolean;
  /** What is there when the screen is. */ whole: string;
  /** The act: a key or a press. */ act: (page: Page) => Promise<void>;
};
type Heard = { fcp: number; lcp: number; inp: number; tasks: number[] };
type Seen = Heard & { script: number };

/** Listens to what the browser tells of paints, long tasks and presses. */
const LISTEN = `(() => {
  const heard = { fcp: 0, lcp: 0, inp: 0, tasks: [] };
  const on = (type, more, take) => new PerformanceObserver((list) => list.getEntries().forEach(take)).observe({ type, buffered: true, ...more });
  on('paint', {}, (one) => one.name === 'first-contentful-paint' && (heard.fcp = one.startTime));
  on('largest-contentful-paint', {}, (one) => (heard.lcp = one.startTime));
  on('longtask', {}, (one) => heard.tasks.push(one.duration));
  on('event', { durationThreshold: 16 }, (one) => one.interactionId && (heard.inp = Math.max(heard.inp, one.duration)));
  globalThis.heard = heard;
})()`;

const goTo = (page: Page): Promise<void> => page.keyboard.press('Control+k');
const press =
  (selector: string) =>
  (page: Page): Promise<void> =>
    page.locator(selector).filter({ visible: true }).first().click();

async function looksAt(firm: Firm): Promise<Look[]> {
  const one = async (sql: string): Promise<string> => {
    const [row] = await firm.database.read.rows<{ it: string }>(sql);
    if (!row) throw new Error(`the demo firm has nothing for: ${sql}`);
    return row.it;
  };
  const job = await one(`SELECT id::text AS it FROM job ORDER BY number DESC LIMIT 1 OFFSET 60`);
  const callback = await one(`SELECT id::text AS it FROM callback WHERE kind <> 'question' ORDER BY number LIMIT 1`);
  const record = await openRecord(firm);
  const mail = await one(
    `SELECT m.body AS it FROM outgoing_mail m JOIN signer s ON m.message_key = 'agreement:' || s.id::text
     LEFT JOIN signature g ON g.signer_id = s.id WHERE g.id IS NULL ORDER BY m.recorded_at DESC LIMIT 1`,
  );
  const [harriet, dolores, ruth] = [PEOPLE.owner, PEOPLE.office, PEOPLE.ruth].map(emailOf) as [string, string, string];
  const home = { address: '/', whole: 'main h1', act: goTo };
  return [
    { what: 'home of the owner', as: harriet, ...home },
    { what: 'home of the office', as: dolores, ...home },
    { what: 'home of a lead inspector', as: ruth, ...home },
    { what: 'home of an inspector, phone', as: record.email, ...home, phone: true, act: press('main a, main button') },
    { what: 'booking desk: a digit of the living area', as: dolores, address: '/book', whole: 'main input', act: digit },
    {
      what: `week of ${PEOPLE_SHOWN} people`,
      as: dolores,
      address: '/week',
      whole: '[aria-rowindex="12"]',
      act: press('[role=grid] button, [role=gridcell]'),
    },
    { what: 'one job', as: dolores, address: `/jobs/${job}`, whole: 'main h1', act: press('main button') },
    { what: 'one callback', as: ruth, address: `/callbacks/${callback}`, whole: 'main h1', act: press('main button') },
    { what: 'liabilities', as: harriet, address: '/liabilities', whole: 'main h1', act: press('main button, main a') },
    { what: 'my day, phone', as: record.email, address: '/my-day', whole: 'main h1', phone: true, act: press('main button') },
    {
      what: 'site record, phone: one step',
      as: record.email,
      address: `/records/${record.id}`,
      whole: 'main section button',
      phone: true,
      act: press('main section button'),
    },
    {
      what: "client's signing page, phone",
      as: null,
      address: /\/client\/[\w-]+/.exec(mail)![0],
      whole: 'form button[type=submit]',
      phone: true,
      act: press('input[type=checkbox]'),
    },
  ];
}

async function digit(page: Page): Promise<void> {
  await page.getByLabel('Living area').first().focus();
  await page.keyboard.press('2');
}

async function slowed(page: Page): Promise<CDPSession> {
  const session = await page.context().newCDPSession(page);
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', LINE);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWED });
  return session;
}

/** Bytes of script as they came over the line. */
function scriptBytes(session: CDPSession): () => number {
  const scripts = new Set<string>();
  let bytes = 0;
  session.on('Network.responseReceived', ({ requestId, type }) => void (type === 'Script' && scripts.add(requestId)));
  session.on(
    'Network.loadingFinished',
    ({ requestId, encodedDataLength }) => void (scripts.has(requestId) && (bytes += encodedDataLength)),
  );
  return () => bytes;
}

/** Opens a screen in a browser that keeps nothing, and does its act. */
async function see(browser: Browser, url: string, look: Look): Promise<Seen> {
  const context = await browser.newContext({ viewport: look.phone ? PHONE : WIDE, timezoneId: 'America/Chicago' });
  if (look.as) await context.request.post(`${url}/api/session`, { data: { email: look.as, password: DEMO_PASSWORD } });
  context.setDefaultTimeout(PATIENCE);
  const page = await context.newPage();
  await page.addInitScript({ content: LISTEN });
  if (look.address === '/week')
    await page.route('**/api/week*', async (route) => {
      const reply = await route.fetch();
      await route.fulfill({ response: reply, json: forty((await reply.json()) as Week) });
    });
  const script = scriptBytes(await slowed(page));
  await page.goto(url + look.address);
  await page.locator(look.whole).first().waitFor();
  await page.waitForLoadState('networkidle');
  await page.waitForTimeout(QUIET);
  // a largest paint is told until the first press, so all but the answer to it is read before
  const { fcp, lcp, tasks } = (await page.evaluate('structuredClone(globalThis.heard)')) as Heard;
  const before = script();
  await look.act(page);
  await page.waitForTimeout(QUIET);
  const { inp } = (await page.evaluate('globalThis.heard')) as Heard;
  await context.close();
  return { fcp, lcp, inp, tasks, script: before };
}

const median = (numbers: readonly number[]): number => quantile(numbers, 0.5);

const bench: Bench = {
  about: `ms on a processor slowed ${SLOWED} times and a line of 1.6 Mbit/s with 150 ms, medians of ${TIMES} openings with nothing kept: first and largest paint, from a press to the next picture, KB of script as sent, tasks over 50 ms`,
  run: async (say) => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-web-bench-'));
    const web = builtWeb();
    const firm = await firmIn(path.join(folder, 'data'), web);
    const browser = await launch();
    try {
      for (const look of await looksAt(firm)) {
        const seen: Seen[] = [];
        for (let n = 0; n < TIMES; n += 1) seen.push(await see(browser, firm.url, look));
        const of = (part: (one: Seen) => number): number => Math.round(median(seen.map(part)));
        say({
          what: look.what.padEnd(42),
          'first paint': of(({ fcp }) => fcp),
          'largest paint': of(({ lcp }) => lcp),
          'press to picture': of(({ inp }) => inp),
          'script KB': of(({ script }) => script / KB),
          'long tasks': of(({ tasks }) => tasks.length),
          'longest ms': of(({ tasks }) => Math.max(0, ...tasks)),
        });
      }
    } finally {
      await browser.close();
      await firm.close();
      for (const made of [folder, web]) fs.rmSync(made, { recursive: true, force: true });
    }
  },
};
export default bench;
