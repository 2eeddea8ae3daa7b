// The built staff app, served by the real service over a test's database, in a real browser.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import { violationsOn, WCAG_22_AA } from './axe.ts';
import { launch } from './browser.ts';
import { CAST, PASSWORD, withCast, type CastName } from './cast.ts';
import { testService, type TestService } from './database.ts';
import { withSite } from './site.ts';

export const WIDTHS = { desk: { width: 1280, height: 860 }, phone: { width: 390, height: 844 } } as const;

export type StaffApp = TestService & {
  /** A page of its own, not signed in, at an address of the app. */
  open: (address: string, width?: keyof typeof WIDTHS) => Promise<Page>;
  /** The same, signed in, at the address. */
  openAs: (who: CastName, address: string, width?: keyof typeof WIDTHS) => Promise<Page>;
};

/** Serves the app with the cast, with settings besides the usual ones. The service has the time of the browser. */
export function staffApp(settings: Record<string, string> = {}): StaffApp {
  const service = testService();
  withCast(service);
  beforeAll(() => {
    service.clock.now = new Date();
  });
  const site = withSite(service, settings);
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());
  const fresh = async (width: keyof typeof WIDTHS = 'desk'): Promise<Page> => {
    const context = await browser.newContext({ viewport: WIDTHS[width], timezoneId: 'Europe/Berlin' });
    return context.newPage();
  };
  const open: StaffApp['open'] = async (address, width) => {
    const page = await fresh(width);
    await page.goto(site.url + address);
    return page;
  };
  const openAs: StaffApp['openAs'] = async (who, address, width) => {
    const page = await fresh(width);
    await site.signIn(page, who);
    await page.goto(site.url + address);
    return page;
  };
  return Object.assign(service, { open, openAs });
}

/** Fills the sign-in form that the page shows, and waits until it is gone. */
export async function signIn(page: Page, who: CastName): Promise<void> {
  // The password first: over a screen that asks for an address too, the form is there once it is.
  await page.getByLabel('Password', { exact: true }).fill(PASSWORD);
  await page.getByLabel('E-mail address').last().fill(CAST[who].email);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.getByRole('button', { name: 'Sign in' }).waitFor({ state: 'detached' });
}

/** No serious violation of WCAG 2.2 AA that axe can see, and no sideways scrolling at either width. */
export async function expectAccessible(page: Page): Promise<void> {
  const violations = await violationsOn(page, { tags: WCAG_22_AA });
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html} ${nodes[0]?.failureSummary}`)).toEqual([]);
  const usual = page.viewportSize()!;
  for (const size of [...Object.values(WIDTHS).filter(({ width }) => width !== usual.width), usual]) {
    await page.setViewportSize(size);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(over, `no sideways scrolling at ${size.width} px`).toBeLessThanOrEqual(0);
  }
}
