// Every screen of every role, at the width of a desk and of a phone: no serious accessibility violation (axe-core's rules for WCAG 2.2), nothing wider than the screen, no error on it.
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { draftRevision } from '@backsight/usecases/procedures/drafts';
import type { Act } from '@backsight/usecases/run';
import { openRecord } from '@backsight/usecases/sitework/openRecord';
import { groupsFor } from '../../apps/web/src/app/navigation.ts';
import { violationsOn, WCAG_22_AA } from '../support/axe.ts';
import { launch } from '../support/browser.ts';
import { as, CAST, withCast, type CastName } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { withSite } from '../support/site.ts';
import { siteJob } from '../support/siteJob.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const service = testService();
withCast(service);
withStarter(service);
const site = withSite(service);
const folder = process.env.SCREENS;
let browser: Browser;

beforeAll(async () => {
  const at = (hours: number) => new Date(service.clock.now.getTime() + hours * 3_600_000).toISOString();
  const { visitId: coming, jobId: job } = await bookedVisit(service, {
    startsAt: at(24),
    endsAt: at(27),
    first: CAST.anna.id,
    second: CAST.ben.id,
  });
  await bookedVisit(service, { startsAt: at(-4), endsAt: at(-1), first: CAST.anna.id, second: CAST.ben.id, state: 'done' });
  FURTHER.owner!.push(`/visits/${coming}/kept`, `/jobs/${job}/record`, `/jobs/${job}/report`, ...(await bookScreens()));
  FURTHER.anna!.push(`/visits/${coming}/start`, `/visits/${coming}/ending`, `/visits/${coming}/late`, `/jobs/${job}/tests`);
  FURTHER.anna!.push(...(await recordScreens()));
  browser = await launch();
});
afterAll(() => browser?.close());

async function done<In, Out>(act: Act<In, Out>, input: In, who: CastName): Promise<void> {
  expect(await service.runner.run(act, input, { actor: as(who) })).toMatchObject({ ok: true });
}

/** The book: a procedure, its revision in force, and a draft as form, table and page. */
async function bookScreens(): Promise<string[]> {
  const [attic] = await service.database.read.rows<{ id: string; revision: string }>(
    `SELECT p.id::text AS id, r.id::text AS revision FROM procedure p JOIN procedure_revision r ON r.procedure_id = p.id WHERE p.key = 'attic'`,
  );
  const draft = randomUUID();
  await done(draftRevision, { id: draft, procedureId: attic!.id, reason: 'Ducts that end in the attic were missed' }, 'lead');
  const pages = [`draft/${draft}`, `table/${draft}`, `revision/${draft}`, `revision/${attic!.revision}`, attic!.id, 'new', 'coverage'];
  return pages.map((page) => `/procedures/${page}`);
}

/** A visit that just began: the record, and each of its pages. */
async function recordScreens(): Promise<string[]> {
  const { visitId } = await siteJob(service);
  const id = randomUUID();
  const item = { id: randomUUID(), kind: 'ground_fault_device', label: 'Upstairs bath' } as const;
  await done(openRecord, { id, visitId, items: [item], systems: [], acknowledged: [] }, 'anna');
  return ['', '/door', '/devices', '/restore', '/moisture', '/danger', '/damage', '/seal'].map((page) => `/records/${id}${page}`);
}

/** Screens that no entry of the navigation names. */
const FURTHER: Partial<Record<CastName, string[]>> = {
  owner: [
    `/people/${CAST.anna.id}`,
    '/people/new',
    '/nothing-here',
    '/to-do/kitShort',
    '/double-looks',
    '/corrective-actions',
    '/certificates',
    '/callbacks/new',
    '/liabilities/steps',
    '/liabilities/windows',
    '/liabilities/entries',
    '/ledger/accounts',
    '/ledger/books',
    '/ledger/entries',
    '/mail/settings',
    '/mail/wordings',
  ],
  office: [`/people/${CAST.anna.id}`, '/people/new', '/to-do/tomorrowMissing'],
  lead: [`/people/${CAST.anna.id}`],
  anna: [`/people/${CAST.anna.id}`],
};
const WIDTHS = [1280, 390];

const HEIGHT = 900;

/** Goes to the screen and looks at it at each width; the app lays itself out by style alone, so it is opened once. */
async function look(page: Page, at: string, name: string): Promise<string[]> {
  const found = await goTo(page, at);
  for (const width of WIDTHS) found.push(...(await lookAt(page, width, name)).map((words) => `${at} at ${width} px: ${words}`));
  return found;
}

type Router = { state: { status: string; resolvedLocation?: { pathname: string } } };

/** Goes on inside the app, as its links do: loading it anew for every screen would take longer than looking. The service has to answer the address with the app all the same. */
async function goTo(page: Page, at: string): Promise<string[]> {
  const answer = await page.request.get(site.url + at);
  const found = (await answer.text()).includes('<div id="root">') ? [] : [`${at}: the service does not answer with the app`];
  if (page.url() === 'about:blank') await page.goto(site.url + at);
  else await page.evaluate((to) => history.pushState(null, '', to), at);
  // the screen before stays until the next one is whole, so its heading would say nothing
  const arrived = page.waitForFunction((to) => {
    const { status, resolvedLocation } = (window as unknown as { __TSR_ROUTER__: Router }).__TSR_ROUTER__.state;
    return status === 'idle' && resolvedLocation?.pathname === to;
  }, at);
  await arrived.catch(() => found.push(`${at}: ended at ${page.url()}`));
  await page.locator('h1').first().waitFor();
  const loaded = page.getByText('One moment ...').first().waitFor({ state: 'hidden' });
  await loaded.catch(() => found.push(`${at}: still "One moment ..."`));
  return found;
}

/** What breaks a rule of WCAG 2.2 AA or is serious besides, and what is wider than the screen. */
async function lookAt(page: Page, width: number, name: string): Promise<string[]> {
  await page.setViewportSize({ width, height: HEIGHT });
  if (folder) {
    fs.mkdirSync(folder, { recursive: true });
    await page.screenshot({ path: path.join(folder, `${name}-${width}.png`), fullPage: true });
  }
  const violations = (await violationsOn(page))
    .filter(({ impact, tags }) => impact === 'serious' || impact === 'critical' || tags.some((tag) => WCAG_22_AA.includes(tag)))
    .map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  return [...violations, ...(wide > 0 ? [`${wide} px wider than the screen`] : [])];
}

const offered = (who: CastName): string[] => [
  ...groupsFor(CAST[who].roles).flatMap(({ entries }) => entries.map(({ to }) => to)),
  ...(FURTHER[who] ?? []),
];
/** Differs by role although the address is the same. */
const BY_ROLE = new Set(['/', '/callbacks']);

/** The owner looks at every screen that he is offered, the others at what differs for them; for pictures everybody looks at everything. */
const screensOf = (who: CastName): string[] => {
  const all = [...new Set(offered(who))];
  return who === 'owner' || folder ? all : all.filter((at) => BY_ROLE.has(at) || !offered('owner').includes(at));
};

const fileName = (at: string): string =>
  at
    .replace(/[0-9a-f-]{36}/g, 'one')
    .replace(/\W+/g, '-')
    .replace(/^-|-$/g, '') || 'home';

const freshPage = async (): Promise<Page> => (await browser.newContext({ serviceWorkers: 'block' })).newPage();

describe('every screen, at both widths', { timeout: 300_000 }, () => {
  it('nobody: signing in', async () => {
    const page = await freshPage();
    expect(await look(page, '/sign-in', 'nobody-sign-in')).toEqual([]);
    await page.context().close();
  });
  it.each(Object.keys(FURTHER) as CastName[])('%s', async (who) => {
    const page = await freshPage();
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(error.message));
    await site.signIn(page, who);
    const found: string[] = [];
    for (const at of screensOf(who)) found.push(...(await look(page, at, `${who}-${fileName(at)}`)));
    expect([...found, ...errors]).toEqual([]);
    await page.context().close();
  });
});

describe('a database without a firm', () => {
  const empty = testService();
  const fresh = withSite(empty);
  it('shows the set-up at both widths', async () => {
    const page = await freshPage();
    await page.goto(`${fresh.url}/`);
    await page.waitForURL('**/set-up');
    await page.locator('h1').waitFor();
    for (const width of WIDTHS) expect(await lookAt(page, width, 'nobody-set-up')).toEqual([]);
    await page.context().close();
  });
});
