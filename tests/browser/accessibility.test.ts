// Every screen that the router knows, for whoever it is for: axe-core's rules for WCAG 2.2 at the widths of a desk and of a phone, contrast
// in the dark theme as well, nothing wider than the window (also at 640 px: a desk at 200 %), no error on it.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { groupsFor } from '../../apps/web/src/app/navigation.ts';
import { OF_LOOKS, violationsOn, WCAG_22_AA } from '../support/axe.ts';
import { launch } from '../support/browser.ts';
import { CAST, withCast, type CastName } from '../support/cast.ts';
import { wordOf } from '../support/clientLink.ts';
import { CLIENT_PAGES } from '../support/clientPages.ts';
import { testService } from '../support/database.ts';
import { pressOn, tabTo } from '../support/keyboard.ts';
import { screenExamples } from '../support/screenExamples.ts';
import { allRoutes, goTo, overflow, routeShown } from '../support/screens.ts';
import { withSite } from '../support/site.ts';
import { withStarter } from '../support/starter.ts';

const service = testService();
withCast(service);
withStarter(service);
const site = withSite(service);
const HEIGHT = 900;
let browser: Browser;
/** Addresses with names for what they are about, as the router says them, that somebody has looked at. */
const seen = new Set<string>();

/** Screens that are about one thing, or that say that there is none. */
const FURTHER: Partial<Record<CastName, string[]>> = {
  owner: [
    `/people/${CAST.anna.id}?change=true`,
    `/people/${CAST.anna.id}/password`,
    '/nothing-here',
    '/to-do/kitShort',
    '/liabilities/steps/ground-fault-trip-reset',
  ],
  office: ['/to-do/tomorrowMissing'],
  lead: [],
  anna: [`/people/${CAST.anna.id}`],
};

beforeAll(async () => {
  for (const [who, addresses] of Object.entries(await screenExamples(service))) FURTHER[who as CastName]!.push(...addresses);
  browser = await launch();
});
afterAll(() => browser?.close());

async function look(page: Page, at: string): Promise<string[]> {
  const found = await goTo(page, site.url, at);
  seen.add(await routeShown(page));
  return [...found, ...(await lookAt(page)).map((words) => `${at} ${words}`)];
}

/** Goes through the widths and themes; the app lays itself out by style alone, so it is opened once. Colors are the same at any width: each theme is measured at one. */
async function lookAt(page: Page): Promise<string[]> {
  const found: string[] = [];
  const measure = async (width: number, theme: 'light' | 'dark', rules?: string[]) => {
    await page.setViewportSize({ width, height: HEIGHT });
    await page.emulateMedia({ colorScheme: theme });
    found.push(...(await broken(page, rules)).map((words) => `at ${width} px, ${theme}: ${words}`));
  };
  await measure(1280, 'light');
  await page.setViewportSize({ width: 640, height: HEIGHT / 2 });
  found.push(...(await wider(page)).map((words) => `at 200 %: ${words}`));
  await measure(390, 'dark', OF_LOOKS);
  return found;
}

const wider = async (page: Page): Promise<string[]> =>
  [await overflow(page)].filter((by) => by > 0).map((by) => `${by} px wider than the window`);

/** What breaks a rule of WCAG 2.2 AA or is serious besides, and what is wider than the window. */
async function broken(page: Page, rules?: string[]): Promise<string[]> {
  const violations = (await violationsOn(page, rules && { rules }))
    .filter(({ impact, tags }) => impact === 'serious' || impact === 'critical' || tags.some((tag) => WCAG_22_AA.includes(tag)))
    .map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
  return [...violations, ...(await wider(page))];
}

const offered = (who: CastName): string[] => groupsFor(CAST[who].roles).flatMap(({ entries }) => entries.map(({ to }) => to));
/** Differs by role although the address is the same. */
const BY_ROLE = new Set(['/']);
/** Seen before somebody is signed in. */
const OUTSIDE = ['/sign-in', '/forgotten', '/new-password/x', '/set-up'];

/** The owner looks at every screen that is about no single thing, save those for other roles alone; the others look at what differs for them. */
async function screensOf(who: CastName, page: Page): Promise<string[]> {
  const others = (['office', 'lead', 'anna'] as const).flatMap(offered).filter((at) => !offered('owner').includes(at));
  const plain = (await allRoutes(page)).filter((at) => !at.includes('$') && ![...OUTSIDE, ...others].includes(at));
  const own = who === 'owner' ? plain : offered(who).filter((at) => BY_ROLE.has(at) || others.includes(at));
  return [...new Set([...own, ...(FURTHER[who] ?? [])])];
}

const freshPage = async (): Promise<Page> => (await browser.newContext()).newPage();

describe('every screen, in both themes', { timeout: 600_000 }, () => {
  it('nobody: signing in', async () => {
    const page = await freshPage();
    for (const at of OUTSIDE.slice(0, -1)) expect(await look(page, at)).toEqual([]);
    await page.context().close();
  });
  it.each(Object.keys(FURTHER) as CastName[])('%s', async (who) => {
    const page = await freshPage();
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(error.message));
    await site.signIn(page, who);
    await goTo(page, site.url, '/');
    const found: string[] = [];
    for (const at of await screensOf(who, page)) found.push(...(await look(page, at)));
    expect([...found, ...errors]).toEqual([]);
    if (who === 'anna')
      expect(
        (await allRoutes(page)).filter((route) => !seen.has(route) && route !== '/set-up'),
        'looked at by nobody',
      ).toEqual([]);
    await page.context().close();
  });
});

it('light or dark is chosen for the device, is there before anything is drawn, and leaves paper light', async () => {
  const page = await freshPage();
  await page.emulateMedia({ colorScheme: 'light' });
  const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  const [light, dark] = ['rgb(250, 248, 244)', 'rgb(21, 25, 27)'];
  await site.signIn(page, 'anna');
  await page.goto(`${site.url}/my-time`);
  const choice = page.getByRole('combobox', { name: 'Light or dark' });
  expect(await ground()).toBe(light);
  await choice.selectOption('Always dark');
  expect(await ground()).toBe(dark);
  await page.emulateMedia({ media: 'print' });
  expect(await ground()).toBe('rgba(0, 0, 0, 0)');
  expect(await page.evaluate(() => getComputedStyle(document.body).color)).toBe('rgb(29, 36, 39)');
  await page.emulateMedia({ media: 'screen' });
  await page.route('**/assets/*.js', (route) => route.abort());
  await page.reload();
  expect([await page.locator('#root').innerHTML(), await ground()]).toEqual(['', dark]);
  await page.unroute('**/assets/*.js');
  await page.reload();
  await choice.selectOption('Light or dark by device');
  expect(await ground()).toBe(light);
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await ground()).toBe(dark);
  await page.context().close();
});

describe('the pages of clients', () => {
  /** One of each layout; what is wrong stands beside its field. */
  const LAYOUTS = [
    ...(['with something missing', 'signed', 'of a link that ended', 'with a report not sent'] as const),
    ...(['after a decision', 'on complaints', 'to check a fingerprint'] as const),
  ];
  it('can be seen and read in both themes, at every width', async () => {
    const page = await freshPage();
    const found: string[] = [];
    for (const name of LAYOUTS) {
      const at = `${site.url}/${name.replaceAll(' ', '-')}`;
      await page.route(at, (route) => route.fulfill({ contentType: 'text/html', body: CLIENT_PAGES[name] }));
      await page.goto(at);
      found.push(...(await lookAt(page)).map((words) => `${name} ${words}`));
    }
    expect(found).toEqual([]);
    await page.emulateMedia({ media: 'print' });
    expect(await page.evaluate(() => getComputedStyle(document.body).color)).toBe('rgb(29, 36, 39)');
    await page.context().close();
  });
  it('are signed by keys alone, without any script', async () => {
    const [mail] = await service.database.read.rows<{ body: string; jobId: string }>(
      `SELECT body, about_id::text AS "jobId" FROM outgoing_mail WHERE kind = 'agreement' ORDER BY recorded_at DESC LIMIT 1`,
    );
    const page = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
    await page.goto(site.url + /\/client\/[\w-]{43}/.exec(mail!.body)![0]);
    await pressOn(page, /^Sign the agreement/);
    await page.locator('#problem:focus').waitFor();
    expect(await page.locator('#problem a').count()).toBe(4);
    await pressOn(page, /^That you have read it/);
    await tabTo(page, /^I have read/);
    await page.keyboard.press('Space');
    await tabTo(page, /^The word in the PDF/);
    await page.keyboard.type(await wordOf(service.database, mail!.jobId));
    await tabTo(page, /^I agree to sign/);
    await page.keyboard.press('Space');
    await tabTo(page, /^Your full name/);
    await page.keyboard.type('Paula Prior');
    await pressOn(page, /^Sign the agreement/);
    await page.getByText('Signed by Paula Prior').waitFor();
    await page.context().close();
  });
});

describe('a database without a firm', () => {
  const empty = testService();
  const fresh = withSite(empty);
  it('shows the set-up', async () => {
    const page = await freshPage();
    await page.goto(`${fresh.url}/`);
    await page.waitForURL('**/set-up');
    await page.locator('h1').waitFor();
    expect(await lookAt(page)).toEqual([]);
    await page.context().close();
  });
});
