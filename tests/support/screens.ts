// Going through the screens of the built app, as its links do: what the router knows is what there is to see.
import type { Page } from 'playwright-core';

type Router = {
  state: { status: string; resolvedLocation?: { pathname: string }; matches: readonly { fullPath: string }[] };
  routesByPath: Record<string, unknown>;
};
type WithRouter = { __TSR_ROUTER__: Router };

/** Goes on inside the app: loading it anew for every screen would take longer than looking. Answers what went wrong; the service has to answer the address with the app all the same. */
export async function goTo(page: Page, url: string, at: string): Promise<string[]> {
  const answer = await page.request.get(url + at);
  const found = (await answer.text()).includes('<div id="root">') ? [] : [`${at}: the service does not answer with the app`];
  if (page.url() === 'about:blank') await page.goto(url + at);
  else await page.evaluate((to) => history.pushState(null, '', to), at);
  // the screen before stays until the next one is whole, so its heading would say nothing
  const arrived = page.waitForFunction(
    (to) => {
      const { status, resolvedLocation } = (window as unknown as WithRouter).__TSR_ROUTER__.state;
      return status === 'idle' && resolvedLocation?.pathname === to;
    },
    at.replace(/\?.*/, ''),
  );
  await arrived.catch(() => found.push(`${at}: ended at ${page.url()}`));
  await page.locator('h1').first().waitFor();
  const loaded = page.getByText('One moment ...').first().waitFor({ state: 'hidden' });
  await loaded.catch(() => found.push(`${at}: still "One moment ..."`));
  return found;
}

/** The address of the screen that is shown, with names for what it is about: /jobs/$jobId. */
export const routeShown = (page: Page): Promise<string> =>
  page.evaluate(() => (window as unknown as WithRouter).__TSR_ROUTER__.state.matches.at(-1)!.fullPath);

/** Every address that the app knows. */
export const allRoutes = (page: Page): Promise<string[]> =>
  page.evaluate(() => Object.keys((window as unknown as WithRouter).__TSR_ROUTER__.routesByPath));

/** The screen is wider than the window by so many pixels; 0 when all can be read without moving sideways. */
export const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => Math.max(0, document.documentElement.scrollWidth - window.innerWidth));

/** A name for a file: of one thing out of many only "one" is said. */
export const fileName = (at: string): string =>
  at
    .replace(/[0-9a-f-]{36}/g, 'one')
    .replace(/\W+/g, '-')
    .replace(/^-|-$/g, '') || 'home';
