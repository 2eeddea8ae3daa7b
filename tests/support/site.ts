// The real service on a free port with the built web app, over a test's database, and a way to sign in as one of the cast.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll } from 'vitest';
import { buildApp } from '../../apps/api/src/app.ts';
import { CAST, PASSWORD, type CastName } from './cast.ts';
import type { TestService } from './database.ts';
import { servicesOf } from './services.ts';

const root = path.resolve(import.meta.dirname, '../..');

let built: Promise<string> | undefined;

/** The folder of the web app, built once for a test file. */
const builtWeb = (): Promise<string> => (built ??= buildWeb());

async function buildWeb(): Promise<string> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-web-'));
  process.once('exit', () => fs.rmSync(folder, { recursive: true, force: true }));
  await build({
    root: path.join(root, 'apps/web'),
    configFile: path.join(root, 'apps/web/vite.config.ts'),
    logLevel: 'error',
    build: { outDir: folder, emptyOutDir: true },
  });
  return folder;
}

export type Site = { url: string; signIn: (page: Page, who: CastName) => Promise<void> };

/** Starts the service after the hooks before it have filled the database. Call inside a test file, after withCast and withStarter. */
export function withSite(service: TestService): Site {
  const site = { url: '', signIn } as Site;
  let close = async () => {};
  beforeAll(async () => {
    service.clock.now = new Date(); // the browser has the real time, and drops a session of another day
    const web = await builtWeb();
    const app = await buildApp(servicesOf(service, { DATA_DIR: web }), web);
    site.url = await app.listen({ host: '127.0.0.1', port: 0 });
    close = () => app.close();
  });
  afterAll(() => close());
  async function signIn(page: Page, who: CastName): Promise<void> {
    await page.goto(`${site.url}/sign-in`);
    await page.getByLabel('E-mail').fill(CAST[who].email);
    await page.getByRole('textbox', { name: 'Password' }).fill(PASSWORD);
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.waitForURL((url) => !url.pathname.includes('sign-in'));
  }
  return site;
}
