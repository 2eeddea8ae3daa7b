// How soon the booking desk answers after the last key, and how long the week of forty people holds up the browser while it scrolls.
// Over a demo firm of its own, or over one that runs already: BENCH_AT=http://127.0.0.1:4800 npm run bench -- desk
import fs from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import type { Week } from '@backsight/contract/schedule';
import { DEMO_PASSWORD, emailOf, PEOPLE } from '../../prisma/seed/demo/people.ts';
import { launch } from '../support/browser.ts';
import { TOGETHER, quantile } from './bench.ts';
import type { Bench, Row } from './bench.ts';
import { forty, PEOPLE_SHOWN } from './fortyPeople.ts';
import { builtProgram } from './http/built.ts';
import { withCopies } from './http/copies.ts';
import { startUnder } from './http/under.ts';
import { builtWeb } from './webBuild.ts';
import { YEARS_NOW } from './years/databases.ts';

const TIMES = TOGETHER ? 10 : 30;
const MOST = 100;
/** Somebody who types well, in ms from key to key; and how long nothing may change until an answer counts as the last one. */
const KEY = 90;
const QUIET = 600;
/** What the desk waits for another key. */
const PAUSE = 20;
/** A desk computer some years old. */
const SLOWED = 4;
/** What somebody notices while scrolling, in ms. */
const LONG = 50;
const WIDE = { width: 1280, height: 900 };

type Changes = { key: number; said: Record<string, { at: number; text: string }[]> };

/** Writes down, for each region of that name, what it showed and when that was painted. */
function watch(names: readonly string[]): void {
  const heard: Changes = { key: 0, said: Object.fromEntries(names.map((name) => [name, []])) };
  const look = (): void => {
    for (const name of names) {
      const text = document.querySelector(`section[aria-label="${name}"]`)?.textContent ?? '';
      if (heard.said[name]!.at(-1)?.text !== text) heard.said[name]!.push({ at: performance.now(), text });
    }
  };
  // Right after the next picture, before whatever else the page has to do.
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = look;
  const painted = (): number => requestAnimationFrame(() => port2.postMessage(null));
  look();
  new MutationObserver(painted).observe(document.body, { subtree: true, childList: true, characterData: true });
  document.addEventListener('input', (event) => (heard.key = event.timeStamp), true);
  Object.assign(globalThis, { heard });
}

/** Whether every region said something since the last key, and has been quiet for so long. */
const settled = (quiet: number): boolean => {
  const { key, said } = (globalThis as unknown as { heard: Changes }).heard;
  const last = Object.values(said).map((changes) => changes.at(-1)!.at);
  return last.every((at) => at > key) && performance.now() - Math.max(...last) > quiet;
};

/** Milliseconds from the last key until a region showed what it says now. */
const since = (name: string): number => {
  const { key, said } = (globalThis as unknown as { heard: Changes }).heard;
  return said[name]!.at(-1)!.at - key;
};

/** The same way without work at its end: the pause, a request that asks next to nothing, a picture. What this takes long, the machine took. */
const nothing = (pause: number): Promise<number> =>
  new Promise((done) => {
    const began = performance.now();
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => done(performance.now() - began);
    setTimeout(() => void fetch('/api/set-up').then(() => requestAnimationFrame(() => port2.postMessage(null))), pause);
  });

async function typed(page: Page, label: string, text: string): Promise<void> {
  await page.getByLabel(label).first().fill('');
  await page.waitForTimeout(QUIET);
  await page.getByLabel(label).first().pressSequentially(text, { delay: KEY });
  await page.waitForFunction(settled, QUIET);
}

const rowOf = (what: string, numbers: readonly number[]): Row => {
  const share = quantile(numbers, 0.95);
  return {
    what,
    'median ms': quantile(numbers, 0.5),
    '95 % ms': share,
    'largest ms': Math.max(...numbers),
    'most ms': MOST,
    verdict: share <= MOST ? 'within' : 'OVER',
  };
};

async function signedIn(browser: Browser, url: string, address: string): Promise<Page> {
  const context = await browser.newContext({ viewport: WIDE });
  await context.request.post(`${url}/api/session`, { data: { email: emailOf(PEOPLE.office), password: DEMO_PASSWORD } });
  // What compiles this file names every function, also those that the page runs.
  await context.addInitScript('globalThis.__name = (it) => it');
  const page = await context.newPage();
  await page.goto(url + address);
  return page;
}

/** Living areas that price and time tell from one another, and from a house of which it is not known. */
const SIZES = [1_050, 2_650, 3_350, 1_350, 3_900, 2_950];

/** Another size of the house each time, so that price, time and starts are all worked out anew. */
async function atTheDesk(browser: Browser, url: string, say: (row: Row) => void): Promise<void> {
  const page = await signedIn(browser, url, '/book');
  await page.getByLabel('Street address').fill('12 Alder Street');
  await page.getByLabel('Town').selectOption({ index: 2 });
  await page.getByLabel('Year built').fill('1962');
  await page.getByRole('radio').first().waitFor();
  const regions = { 'fee and minutes': 'Price and time', 'starts and pairs, with why not': 'When the firm can come' };
  await page.evaluate(watch, Object.values(regions));
  const times: Record<string, number[]> = {};
  const idle: number[] = [];
  for (let n = 0; n < TIMES; n += 1) {
    await typed(page, 'Living area', String(SIZES[n % SIZES.length]! + n));
    for (const [what, name] of Object.entries(regions)) (times[what] ??= []).push(await page.evaluate(since, name));
    idle.push(await page.evaluate(nothing, PAUSE));
  }
  for (const [what, numbers] of Object.entries(times)) say(rowOf(`desk: ${what}`, numbers));
  say({ ...rowOf('desk: a request for nothing, to compare with', idle), verdict: '' });
  await page.context().close();
}

type Traced = { name: string; pid: number; tid: number; args: { name?: string }; tdur?: number };

/** Milliseconds that each task of the page itself took of a processor: what else the machine did meanwhile is none of it. */
function tasksOf(trace: Buffer): number[] {
  const { traceEvents: events } = JSON.parse(trace.toString()) as { traceEvents: Traced[] };
  const thread = ({ pid, tid }: Traced): string => `${pid} ${tid}`;
  const pages = new Set(events.filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain').map(thread));
  const tasks = events.filter((one) => one.name === 'RunTask' && pages.has(thread(one)));
  if (tasks.length === 0) throw new Error('the browser told of no task');
  return tasks.map(({ tdur = 0 }) => tdur / 1000);
}

async function scrolled(browser: Browser, url: string, say: (row: Row) => void): Promise<void> {
  const page = await signedIn(browser, url, '/');
  await page.route('**/api/week*', async (route) => {
    const reply = await route.fetch();
    await route.fulfill({ response: reply, json: forty((await reply.json()) as Week) });
  });
  await page.goto(`${url}/week`);
  await page.locator('[aria-rowindex="41"]').waitFor();
  await page.waitForTimeout(QUIET);
  const slow = await page.context().newCDPSession(page);
  await slow.send('Emulation.setCPUThrottlingRate', { rate: SLOWED });
  await browser.startTracing(page, { categories: ['toplevel', 'disabled-by-default-devtools.timeline'] });
  await page.getByRole('grid').hover();
  for (const [x, y] of [
    [0, 120],
    [0, -120],
    [120, 0],
    [-120, 0],
  ] as const)
    for (let n = 0; n < 25; n += 1) {
      await page.mouse.wheel(x, y);
      await page.waitForTimeout(30);
    }
  await page.waitForTimeout(QUIET);
  const tasks = tasksOf(await browser.stopTracing());
  const long = tasks.filter((ms) => ms > LONG);
  say({
    what: `week: ${PEOPLE_SHOWN} people, 7 days, scrolled; of ${tasks.length} tasks over ${LONG} ms: ${long.length}`,
    'median ms': quantile(tasks, 0.5),
    '95 % ms': quantile(tasks, 0.95),
    'largest ms': Math.max(...tasks),
    'most ms': LONG,
    verdict: long.length === 0 ? 'within' : 'OVER',
  });
  await page.context().close();
}

async function atBoth(browser: Browser, url: string, say: (row: Row) => void): Promise<void> {
  await atTheDesk(browser, url, say);
  await scrolled(browser, url, say);
}

/** A service as it is delivered over the demo firm, in a process of its own. */
async function overDemo(work: (url: string) => Promise<void>): Promise<void> {
  const [copies, web] = [await withCopies(), builtWeb()];
  const order = { url: await copies.copy('desk'), began: YEARS_NOW.getTime(), connections: 6, recorded: null, web };
  const service = await startUnder(await builtProgram('program'), order);
  try {
    await work(`http://127.0.0.1:${service.port}`);
  } finally {
    await service.stop();
    await copies.stop();
    fs.rmSync(web, { recursive: true, force: true });
  }
}

const bench: Bench = {
  about:
    'ms from the last key to the painted answer, the pause before asking among them; ms that the tasks of the week take of a processor slowed 4 times',
  run: async (say) => {
    const at = process.env['BENCH_AT'];
    const browser = await launch();
    try {
      await (at ? atBoth(browser, at, say) : overDemo((url) => atBoth(browser, url, say)));
    } finally {
      await browser.close();
    }
  },
};
export default bench;
