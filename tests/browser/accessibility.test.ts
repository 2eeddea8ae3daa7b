// Every screen of every role, at the width of a desk and of a phone: no serious accessibility violation (axe-core's rules for WCAG 2.2), nothing wider than the screen, no error on it.
import fs from 'node:fs';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { groupsFor } from '../../apps/web/src/app/navigation.ts';
import { violationsOn } from '../support/axe.ts';
import { launch } from '../support/browser.ts';
import { CAST, withCast, type CastName } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { withSite } from '../support/site.ts';
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
  FURTHER.owner!.push(`/visits/${coming}/kept`);
  FURTHER.anna!.push(`/visits/${coming}/ending`, `/visits/${coming}/late`, `/jobs/${job}/tests`);
  browser = await launch();
});
afterAll(() => browser?.close());

/** Screens that no entry of the navigation names. */
const FURTHER: Partial<Record<CastName, string[]>> = {
  owner: [`/people/${CAST.anna.id}`, '/people/new', '/nothing-here'],
  office: [`/people/${CAST.anna.id}`, '/people/new'],
  lead: [`/people/${CAST.anna.id}`],
  anna: [`/people/${CAST.anna.id}`],
};
const WIDTHS = [1280, 390];

async function look(page: Page, at: string, name: string): Promise<string[]> {
  await page.goto(`${site.url}${at}`);
  await page.locator('h1').first().waitFor();
  await page.getByText('One moment ...').first().waitFor({ state: 'hidden' });
  if (folder) {
    fs.mkdirSync(folder, { recursive: true });
    await page.screenshot({ path: path.join(folder, `${name}.png`), fullPage: true });
  }
  const violations = await violationsOn(page);
  const serious = violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map((v) => `${at}: ${v.id}: ${v.nodes[0]?.html}`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  const elsewhere = new URL(page.url()).pathname === at ? [] : [`${at}: ended at ${page.url()}`];
  return [...elsewhere, ...serious, ...(wide > 0 ? [`${at}: ${wide} px wider than the screen`] : [])];
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

describe.each(WIDTHS)('at %i px', { timeout: 300_000 }, (width) => {
  it('nobody: signing in', async () => {
    const context = await browser.newContext({ viewport: { width, height: 900 } });
    expect(await look(await context.newPage(), '/sign-in', `nobody-sign-in-${width}`)).toEqual([]);
    await context.close();
  });
  it.each(Object.keys(FURTHER) as CastName[])('%s', async (who) => {
    const context = await browser.newContext({ viewport: { width, height: 900 } });
    const page = await context.newPage();
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(error.message));
    await site.signIn(page, who);
    const found: string[] = [];
    for (const at of screensOf(who)) found.push(...(await look(page, at, `${who}-${fileName(at)}-${width}`)));
    expect([...found, ...errors]).toEqual([]);
    await context.close();
  });
});

describe('a database without a firm', () => {
  const empty = testService();
  const fresh = withSite(empty);
  it.each(WIDTHS)('shows the set-up at %i px', async (width) => {
    const context = await browser.newContext({ viewport: { width, height: 900 } });
    const page = await context.newPage();
    await page.goto(`${fresh.url}/`);
    await page.waitForURL('**/set-up');
    await page.locator('h1').waitFor();
    if (folder) await page.screenshot({ path: path.join(folder, `nobody-set-up-${width}.png`), fullPage: true });
    const violations = await violationsOn(page);
    expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical').map((v) => v.id)).toEqual([]);
    await context.close();
  });
});
