// The real service on a free port with the built web app, over a test's database, and a way to sign in as one of the cast.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject } from 'vitest';
import { buildApp } from '../../apps/api/src/app.ts';
import { CAST, PASSWORD, type CastName } from './cast.ts';
import type { TestService } from './database.ts';
import { servicesOf } from './services.ts';

export type Site = {
  url: string;
  /** Gives the page's browser a session of this person, without the form; the page itself stays where it is. */
  signIn: (page: Page, who: CastName) => Promise<void>;
};

/** Starts the service after the hooks before it have filled the database. Call inside a test file, after withCast and withStarter. */
export function withSite(service: TestService, settings: Record<string, string> = {}): Site {
  const site = { url: '', signIn } as Site;
  let close = async () => {};
  beforeAll(async () => {
    service.clock.now = new Date(); // as the browser has it
    const web = inject('web');
    const app = await buildApp(servicesOf(service, { DATA_DIR: web, ...settings }), web);
    site.url = await app.listen({ host: '127.0.0.1', port: 0 });
    close = () => app.close();
  });
  afterAll(async () => {
    await close();
    close = async () => {}; // it holds the service, and the module of a test file lives as long as its process
  });
  async function signIn(page: Page, who: CastName): Promise<void> {
    const reply = await page.context().request.post(`${site.url}/api/session`, { data: { email: CAST[who].email, password: PASSWORD } });
    expect(reply.status(), await reply.text()).toBe(200);
  }
  return site;
}
