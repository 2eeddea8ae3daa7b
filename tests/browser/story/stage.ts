// The stage of the story: the real service on a clock that the story sets, and a browser that lives at the same time.
import fs from 'node:fs';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import { launch } from '../../support/browser.ts';
import { CAST, PASSWORD, withCast, type CastName } from '../../support/cast.ts';
import { TEST_NOW, testService, type TestService } from '../../support/database.ts';
import { withSite } from '../../support/site.ts';
import { withStarter } from '../../support/starter.ts';

export const PHONE = 390;
const DESK = 1280;
const HEIGHTS: Record<number, number> = { [DESK]: 860, [PHONE]: 844 };

export type Stage = TestService & {
  /** The same page as before for the same person until time moves on; on a phone at the site, at a desk elsewhere, unless told. */
  as: (who: CastName, address: string, width?: number) => Promise<Page>;
  /** A page of somebody without an account. */
  visitor: (address: string) => Promise<Page>;
  /** Moves service and browsers to an instant; everybody signs in anew. */
  travel: (to: Date) => Promise<void>;
  /** Looks at the page at both widths: no sideways scrolling, and pictures when SCREENS names a folder. */
  look: (page: Page, name: string) => Promise<void>;
};

/** Call inside a describe: a firm of its own, with the cast, the starter set and Tuesday, May 12, 2026 as its first day. */
export function stage(): Stage {
  const service = testService();
  withCast(service);
  withStarter(service);
  const site = withSite(service);
  const pages = new Map<string, Page>();
  let browser: Browser;
  let picture = 0;
  beforeAll(async () => {
    service.clock.now = TEST_NOW;
    browser = await launch({ ownTime: true });
  });
  afterAll(() => browser?.close());

  const fresh = async (at: number): Promise<{ context: BrowserContext; page: Page }> => {
    const viewport = { width: at, height: HEIGHTS[at] ?? 860 };
    const context = await browser.newContext({ viewport, timezoneId: 'America/Chicago' });
    await context.clock.setFixedTime(service.clock.now);
    const page = await context.newPage();
    return { context, page };
  };
  const as: Stage['as'] = async (who, address, at = address.startsWith('/records') ? PHONE : DESK) => {
    const key = `${who} ${at}`;
    if (!pages.has(key)) {
      const { context, page } = await fresh(at);
      await context.addCookies([await sessionOf(site.url, who)]);
      pages.set(key, page);
    }
    const page = pages.get(key)!;
    await page.goto(site.url + address);
    return page;
  };
  const visitor: Stage['visitor'] = async (address) => {
    const { page } = await fresh(PHONE);
    await page.goto(site.url + address);
    return page;
  };
  const travel: Stage['travel'] = async (to) => {
    service.clock.now = to;
    await Promise.all([...pages.values()].map((page) => page.context().close()));
    pages.clear();
  };
  const look: Stage['look'] = async (page, name) => {
    const usual = page.viewportSize()!;
    const folder = process.env.SCREENS;
    picture += 1;
    for (const width of [DESK, PHONE].toSorted((a) => (a === usual.width ? 1 : -1))) {
      await page.setViewportSize({ width, height: HEIGHTS[width]! });
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(over, `${name} at ${width} px: no sideways scrolling`).toBeLessThanOrEqual(0);
      if (!folder) continue;
      fs.mkdirSync(folder, { recursive: true });
      await page.screenshot({ path: `${folder}/story-${width}-${String(picture).padStart(2, '0')}-${name}.png`, fullPage: true });
    }
  };
  return Object.assign(service, { as, visitor, travel, look });
}

/** Signs in without the form: the cookie is kept without its end, because the browser's own clock cannot be set. */
async function sessionOf(
  url: string,
  who: CastName,
): Promise<{ name: string; value: string; url: string; httpOnly: true; sameSite: 'Strict' }> {
  const reply = await fetch(`${url}/api/session`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ email: CAST[who].email, password: PASSWORD }),
  });
  expect(reply.status, await reply.text()).toBe(200);
  const [name, value] = reply.headers.getSetCookie()[0]!.split(';')[0]!.split('=') as [string, string];
  return { name, value, url, httpOnly: true, sameSite: 'Strict' };
}
