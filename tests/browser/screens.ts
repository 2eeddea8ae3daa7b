// npm run screens: a picture of every screen of the demo firm, for each role, width and theme, in the folder screens/, and sheets of
// small ones beside each other. Parts of it: npm run screens -- --role owner --width 390 --theme dark --only liabilities
// --at http://127.0.0.1:4800 looks at a demo firm that runs already; --width 640,1280 at other widths (640 is a desk at 200 %); --theme print
// on paper (--width 720 is a letter sheet). Motion is reduced.
import fs from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { DEMO_PASSWORD, emailOf, PEOPLE, type Who } from '../../prisma/seed/demo/people.ts';
import { launch } from '../support/browser.ts';
import { dataFolder, freePort, startProgram } from '../support/program.ts';
import { allRoutes, fileName, goTo, overflow, routeShown } from '../support/screens.ts';

const { values: wanted } = parseArgs({
  options: {
    role: { type: 'string' },
    width: { type: 'string' },
    theme: { type: 'string' },
    only: { type: 'string' },
    at: { type: 'string' },
    folder: { type: 'string', default: path.resolve(import.meta.dirname, '../../screens') },
  },
});
const ROLES: Record<string, Who> = { owner: 'owner', office: 'office', lead: 'ruth', inspector: 'amos' };
const WIDTHS = wanted.width?.split(',').map(Number) ?? [390, 768, 1280, 1920];
const THEMES = (['light', 'dark', 'print'] as const).filter((theme) => (wanted.theme?.split(',') ?? ['light', 'dark']).includes(theme));
const HEIGHT = 900;
/** Of a long screen so much is kept. */
const LONGEST = 6000;

const { url, stop } = wanted.at ? { url: wanted.at, stop: async () => {} } : await demo();
const browser = await launch();

async function demo(): Promise<{ url: string; stop: () => Promise<void> }> {
  const [port, folder] = [await freePort(), dataFolder()];
  const program = startProgram({ PORT: String(port), DATA_DIR: folder });
  console.log('making the demo firm ...');
  await program.ready;
  const done = async () => {
    await program.stop();
    fs.rmSync(folder, { recursive: true, force: true });
  };
  return { url: `http://127.0.0.1:${port}`, stop: done };
}

/** Goes where links lead until every address was seen once: of one job out of many the first that is met. */
async function picturesOf(role: string, who: Who): Promise<void> {
  const context = await browser.newContext();
  const page = await context.newPage();
  await signIn(context, who);
  await goTo(page, url, '/');
  const routes = await allRoutes(page);
  const queue = ['/', ...routes.filter((route) => !route.includes('$') && role === 'owner')];
  const met = new Set<string>(queue);
  const seen = new Set<string>();
  for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
    for (const words of await goTo(page, url, at)) console.log(words);
    const route = await routeShown(page);
    for (const link of await linksOn(page)) {
      const pattern = patternOf(link, routes);
      if (pattern === undefined || met.has(pattern)) continue;
      met.add(pattern);
      queue.push(link);
    }
    if (seen.has(route)) continue;
    seen.add(route);
    if (!wanted.only || route.includes(wanted.only)) await pictures(page, role, at);
  }
  await context.close();
  console.log(`${role}: ${seen.size} screens; no link led to ${routes.filter((route) => !seen.has(route)).join(', ') || 'nothing else'}`);
  for (const width of WIDTHS) for (const theme of THEMES) await sheet(browser, role, `${width}-${theme}`);
}

async function signIn(context: BrowserContext, who: Who): Promise<void> {
  const reply = await context.request.post(`${url}/api/session`, { data: { email: emailOf(PEOPLE[who]), password: DEMO_PASSWORD } });
  if (!reply.ok()) throw new Error(await reply.text());
}

/** Addresses of the app, without what only narrows a list. */
const linksOn = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLAnchorElement>('a[href^="/"]')]
      .map((link) => new URL(link.href).pathname)
      .filter((at) => !at.startsWith('/api/')),
  );

/** The address with names, by the router's list: /jobs/$jobId of /jobs/0197...; the most exact one. Undefined: no address of the app. */
function patternOf(at: string, routes: readonly string[]): string | undefined {
  const parts = at.split('/');
  const fits = (route: string): boolean => {
    const names = route.split('/');
    return route !== '/$' && names.length === parts.length && names.every((name, n) => name.startsWith('$') || name === parts[n]);
  };
  return routes.filter(fits).sort((a, b) => a.split('$').length - b.split('$').length)[0];
}

async function pictures(page: Page, role: string, at: string): Promise<void> {
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: HEIGHT });
    const by = await overflow(page);
    if (by > 0) console.log(`${role} ${at}: ${by} px wider than ${width}`);
    for (const theme of THEMES) {
      await page.emulateMedia(theme === 'print' ? { media: 'print' } : { media: 'screen', colorScheme: theme });
      const high = Math.min(LONGEST, await page.evaluate(() => document.documentElement.scrollHeight));
      const folder = path.join(wanted.folder, role, `${width}-${theme}`);
      fs.mkdirSync(folder, { recursive: true });
      await page.screenshot({
        path: path.join(folder, `${fileName(at)}.png`),
        fullPage: true,
        clip: { x: 0, y: 0, width, height: Math.max(HEIGHT, high) },
      });
    }
  }
}

/** All pictures of a role, a width and a theme, small, with their names. */
async function sheet(using: Browser, role: string, kind: string): Promise<void> {
  const folder = path.join(wanted.folder, role, kind);
  if (!fs.existsSync(folder)) return;
  const names = fs
    .readdirSync(folder)
    .filter((name) => name.endsWith('.png'))
    .sort();
  const cells = names.map((name) => `<figure><img src="${name}"><figcaption>${name.replace('.png', '')}</figcaption></figure>`);
  const file = path.join(folder, 'all.html');
  const style =
    'body{display:grid;grid-template-columns:repeat(auto-fill,minmax(260px,1fr));gap:8px;font:12px sans-serif}figure{margin:0}img{width:100%;height:340px;object-fit:cover;object-position:top;border:1px solid}';
  fs.writeFileSync(file, `<!doctype html><title>${role} ${kind}</title><style>${style}</style>${cells.join('')}`);
  const page = await using.newPage({ viewport: { width: 1400, height: 900 } });
  await page.goto(`file://${file}`);
  await page.screenshot({ path: path.join(wanted.folder, `${role}-${kind}.png`), fullPage: true });
  await page.close();
}

try {
  for (const [role, who] of Object.entries(ROLES)) if (!wanted.role || wanted.role === role) await picturesOf(role, who);
} finally {
  await browser.close();
  await stop();
}
