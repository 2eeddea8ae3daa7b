// Two phones of a pair, a day without signal, with a real service worker and the network cut: nothing is lost, nothing doubled.
import type { Page, Route } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { MemberRecord } from '@backsight/contract/sitework';
import type { Ahead } from '@backsight/contract/sitework/ahead';
import { CAST, PASSWORD, withCast, type CastName } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { phoneOf, type Phone } from '../support/phone.ts';
import { withSite } from '../support/site.ts';
import { siteJob } from '../support/siteJob.ts';
import { expectAccessible } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const service = testService();
withCast(service);
withStarter(service);
const site = withSite(service);
const HOUR = 3_600_000;
let anna: Phone;
let ben: Phone;
let lone: string[];

beforeAll(async () => {
  await siteJob(service, { startsAt: new Date() });
  anna = await phoneOf(site, 'anna');
  ben = await phoneOf(site, 'ben');
});
afterAll(() => Promise.all([anna?.close(), ben?.close()]));

type Stored = { id: string; seq: number; step: string; observed: string; written: string; outcome: string; note: string | null };
const stored = () =>
  service.database.read.rows<Stored>(
    `SELECT e.id::text AS id, e.device_seq AS seq, e.step_key AS step, e.observed_by::text AS observed, e.written_by::text AS written, e.outcome, t.body AS note
     FROM step_entry e LEFT JOIN kept_text t ON t.id = e.text_id ORDER BY e.written_by, e.device_seq`,
  );
const records = () => service.database.read.rows<{ id: string }>('SELECT id::text AS id FROM site_record');
const shot = async (page: Page, name: string): Promise<void> => {
  if (process.env.SCREENS) await page.screenshot({ path: `${process.env.SCREENS}/${name}.png`, fullPage: true });
};

/** The app and today's visits are on the phone. */
async function ready(phone: Phone): Promise<void> {
  await phone.open('/my-day');
  await phone.page.getByRole('link', { name: 'Get ready to start' }).waitFor();
  await phone.page.evaluate(async () => void (await navigator.serviceWorker.ready));
  const handedOut = (ahead: Ahead | undefined): boolean => ahead?.visits.every(({ offerId }) => offerId !== null) ?? false;
  await expect.poll(async () => handedOut((await kept(phone.page, '["ahead"')) as Ahead | undefined), { timeout: 15_000 }).toBe(true);
}

/** A reply as the phone keeps it. */
const kept = (page: Page, begins: string): Promise<unknown> =>
  page.evaluate(
    (name) =>
      new Promise((done) => {
        const opening = indexedDB.open('backsight');
        opening.addEventListener('success', () => {
          const all = opening.result.transaction('replies').objectStore('replies').getAll();
          all.addEventListener('success', () => {
            opening.result.close();
            done(all.result.find((reply: { name: string }) => reply.name.startsWith(name))?.data);
          });
        });
      }),
    begins,
  );

/** Where danger is looked for before anybody goes there. */
const GATED = ['roof', 'attic', 'crawl_space', 'structure', 'insulation'];

/** Titles of steps that stand on a page of their own, are done once for the house, and not checked by the partner. */
async function loneSteps(page: Page): Promise<string[]> {
  const { steps } = (await kept(page, '["record"')) as MemberRecord;
  return steps
    .filter(
      (s) => s.style === 'read_then_do' && !s.partnerCheck && s.itemId === null && s.evidence.kind !== 'note' && !GATED.includes(s.system),
    )
    .map(({ title }) => title);
}

/** Goes to a step by the list of all steps. */
async function goTo(page: Page, title: string): Promise<void> {
  const row = page.getByRole('button', { name: title }).first();
  if (!(await row.isVisible())) await page.getByText('All steps').click();
  await row.click();
  await page.getByRole('heading', { name: title, level: 2 }).waitFor();
}
const counted = async (page: Page): Promise<number> =>
  Number(/^(\d+) of/.exec((await page.getByText(/^\d+ of \d+ recorded$/).textContent())!)![1]);
const until = async (page: Page, count: number): Promise<void> => page.getByText(new RegExp(`^${count} of \\d+ recorded$`)).waitFor();

/** Records that a step's thing is not there, looked at by the writer or by the partner. */
async function noneHere(page: Page, by?: string): Promise<void> {
  const before = await counted(page);
  if (by) await page.getByRole('group', { name: 'Looked at by' }).getByText(by).click();
  await page.getByRole('button', { name: 'None at this property' }).click();
  await until(page, before + 1);
}
const addNote = async (page: Page, text: string): Promise<void> => {
  await page.getByText('Add a note').click();
  await page.getByLabel('Note (not needed)').fill(text);
};

/** Sets the clock of a page ahead. */
const setClock = (ahead: number): void => {
  const Real = Date;
  globalThis.Date = class extends Real {
    constructor(...given: []) {
      super(...(given.length > 0 ? given : ([Real.now() + ahead] as unknown as [])));
    }
    static override now = (): number => Real.now() + ahead;
  } as DateConstructor;
};

describe('a day without signal', () => {
  it('opens my day and starts the visit on both phones, at once and without asking anybody', async () => {
    await Promise.all([ready(anna), ready(ben)]);
    for (const phone of [anna, ben]) {
      await phone.cut(true);
      const took = await phone.open('/my-day');
      expect(took, 'milliseconds until my day shows').toBeLessThan(3000);
      await phone.page.getByText('No connection; as of').waitFor();
      await shot(phone.page, 'offline-my-day-390');
      await phone.page.getByRole('link', { name: 'Get ready to start' }).click();
      await phone.page.getByText('Agreement and fee are in order.').waitFor();
      await shot(phone.page, 'offline-start-390');
      await phone.page.getByRole('button', { name: 'Start the visit' }).click();
      await until(phone.page, 0);
      await phone.page.getByText(/^1 not sent yet/).waitFor();
    }
    lone = await loneSteps(anna.page);
    await expectAccessible(anna.page);
    await shot(anna.page, 'offline-record-390');
    expect(await records()).toEqual([]);
  });

  it('keeps every entry through a killed browser and a clock that is five hours wrong; a partner writes for the one inside', async () => {
    const { page } = anna;
    await goTo(page, lone[0]!);
    await addNote(page, 'first look');
    await noneHere(page);
    await goTo(page, lone[1]!);
    await addNote(page, 'Ben called it out');
    await noneHere(page, CAST.ben.name);
    await anna.kill();
    const { id } = { id: page.url().split('/records/')[1]!.split('?')[0]! };
    await anna.open(`/records/${id}`);
    await until(anna.page, 2);
    await anna.page.getByText(/^3 not sent yet/).waitFor();
    await anna.page.evaluate(setClock, 5 * HOUR);
    await goTo(anna.page, lone[0]!);
    await anna.page.getByRole('button', { name: 'Correct this' }).click();
    await anna.page.getByText('looked again').click();
    await addNote(anna.page, 'second look');
    await anna.page.getByRole('button', { name: 'None at this property' }).click();
    await anna.page.getByText('second look').waitFor();
    await anna.page.getByText('Add a thing found here').click();
    await anna.page.getByLabel('Name').fill('upstairs bath');
    await anna.page.getByRole('button', { name: 'Add it' }).click();
    await anna.page.getByText(/upstairs bath: \d+ steps? added/).waitFor();
    expect(await stored()).toEqual([]);
    await goTo(ben.page, lone[2]!);
    await noneHere(ben.page);
  });

  it('is sent when the signal comes back, though it is cut in the middle and sent twice: one record, all of it, once', async () => {
    await ben.cut(false);
    await ben.page.getByText('Everything is sent.').waitFor({ timeout: 30_000 });
    const lost = new Set<string>();
    /** The service takes it, but its answer is lost on the way. */
    const lose = async (route: Route): Promise<void> => {
      const { pathname } = new URL(route.request().url());
      if (lost.has(pathname)) return route.continue();
      lost.add(pathname);
      await route.fetch();
      await route.abort('connectionreset');
    };
    await service.database.transaction((tx) =>
      tx.db.session.updateMany({ where: { personId: CAST.anna.id }, data: { endedAt: new Date() } }),
    );
    await anna.page.route(/\/api\/(visits|records)\/.*\/(record|entries)$/, lose);
    await anna.cut(false);
    const asked = anna.page.getByRole('dialog', { name: 'Your session has ended' });
    await asked.getByRole('button', { name: 'Close' }).click({ timeout: 30_000 });
    await anna.page.getByRole('button', { name: 'Sign in to send it' }).click();
    await asked.getByLabel('E-mail address').fill(CAST.anna.email);
    await asked.getByLabel('Password', { exact: true }).fill(PASSWORD);
    await asked.getByRole('button', { name: 'Sign in' }).click();
    await anna.page.getByText('Everything is sent.').waitFor({ timeout: 30_000 });
    expect(lost.size).toBe(2);
    expect(await records()).toHaveLength(1);
    const rows = await stored();
    const of = (who: CastName) => rows.filter(({ written }) => written === CAST[who].id);
    expect(of('anna').map(({ seq, note, observed }) => [seq, note, observed])).toEqual([
      [1, 'first look', CAST.anna.id],
      [2, 'Ben called it out', CAST.ben.id],
      [3, 'second look', CAST.anna.id],
    ]);
    expect(of('ben')).toHaveLength(1);
    expect(new Set(rows.map(({ id }) => id)).size).toBe(4);
    for (const phone of [anna, ben]) {
      await phone.open(`/records/${(await records())[0]!.id}`);
      await until(phone.page, 3);
      await phone.page.getByText('Everything is sent.').waitFor();
      await goTo(phone.page, lone[0]!);
      await phone.page.getByText('second look').waitFor();
      expect(await phone.page.getByText('first look').count()).toBe(0);
      await phone.page.getByText('All steps').click();
      await phone.page
        .getByRole('button', { name: /upstairs bath/ })
        .first()
        .waitFor();
    }
    await shot(anna.page, 'online-record-390');
  }, 180_000);
});

describe('a phone that changes hands', () => {
  it('asks before signing out, shows nothing of the other, and sends it when its person is back', async () => {
    const { page } = ben;
    await ben.cut(true);
    await goTo(page, lone[3]!);
    const before = (await stored()).length;
    await noneHere(page);
    await page.route('**/entries', (route) => route.abort());
    await ben.cut(false);
    await page.getByRole('button', { name: 'Menu' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Sign out' }).click();
    const asked = page.getByRole('dialog', { name: 'Not everything is sent' });
    await asked.getByText('1 not sent yet.').waitFor();
    await shot(page, 'sign-out-390');
    await asked.getByRole('button', { name: 'Sign out all the same' }).click();
    await page.getByRole('heading', { name: 'Sign in' }).waitFor();
    await site.signIn(page, 'cora');
    await ben.open('/my-day');
    await ben.page.getByText('Everything is sent.').waitFor();
    expect(await ben.page.getByText('14 Alder Road').count()).toBe(0);
    expect((await stored()).length).toBe(before);
    await site.signIn(ben.page, 'ben');
    await ben.open('/my-day');
    await expect.poll(async () => (await stored()).length, { timeout: 30_000 }).toBe(before + 1);
  });

  it('says on an address that is not secure that it cannot be used without signal', async () => {
    const insecure = site.url.replace('127.0.0.1', 'insecure.example');
    const phone = await phoneOf(site, 'anna', insecure, ['--host-resolver-rules=MAP insecure.example 127.0.0.1']);
    try {
      await phone.page.goto(`${insecure}/sign-in`);
      await phone.page.getByLabel('E-mail address').fill(CAST.anna.email);
      await phone.page.getByLabel('Password', { exact: true }).fill('a long test password');
      await phone.page.getByRole('button', { name: 'Sign in' }).click();
      await phone.page.getByRole('button', { name: 'Sign in' }).waitFor({ state: 'detached' });
      await phone.open('/my-day');
      await phone.page.getByText('Not for use without signal').waitFor();
      await shot(phone.page, 'insecure-390');
    } finally {
      await phone.close();
    }
  });
});
