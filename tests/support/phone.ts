// A phone of one of the pair: a browser with a profile on disk, a service worker and a connection that can be cut.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { launchProfile } from './browser.ts';
import type { CastName } from './cast.ts';
import type { Site } from './site.ts';

export type Phone = {
  page: Page;
  /** A page at an address of the app; the one before is closed. Answers the milliseconds until its heading shows. */
  open: (address: string) => Promise<number>;
  cut: (off: boolean) => Promise<void>;
  /** Kills the browser without a word, and starts it again on what it had stored. */
  kill: () => Promise<void>;
  close: () => Promise<void>;
};

type Options = { offline?: boolean; args?: string[] };

/** Signed in as `who`, with the app kept on the phone. `url` is another address of the same service. */
export async function phoneOf(site: Site, who: CastName, url = site.url, args: string[] = []): Promise<Phone> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-phone-'));
  const start = (options: Options = {}): Promise<BrowserContext> =>
    launchProfile(folder, { viewport: { width: 390, height: 844 }, timezoneId: 'America/Chicago', args, ...options });
  let context = await start();
  let off = false;
  const phone = { page: context.pages()[0]! } as Phone;
  const open = async (address: string): Promise<number> => {
    const before = phone.page;
    phone.page = await context.newPage();
    await before.close();
    const began = Date.now();
    await phone.page.goto(url + address, { waitUntil: 'commit' });
    await phone.page.locator('main h1').first().waitFor();
    return Date.now() - began;
  };
  const cut = async (now: boolean): Promise<void> => {
    off = now;
    await context.setOffline(now);
  };
  const kill = async (): Promise<void> => {
    const gone = new Promise((done) => context.once('close', done));
    const session = await context.browser()!.newBrowserCDPSession();
    await session.send('Browser.crash').catch(() => undefined);
    await gone;
    context = await start({ offline: off });
    phone.page = context.pages()[0] ?? (await context.newPage());
  };
  const close = async (): Promise<void> => {
    await context.close();
    fs.rmSync(folder, { recursive: true, force: true });
  };
  await site.signIn(phone.page, who);
  return Object.assign(phone, { open, cut, kill, close });
}
