// Two phones of a pair without signal until the seal, a real service worker, the network cut: nothing lost, nothing doubled; one changes hands.
import { randomUUID } from 'node:crypto';
import type { Page, Route } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { MemberRecord } from '@backsight/contract/sitework';
import type { Ahead } from '@backsight/contract/sitework/ahead';
import { saveAccess } from '@backsight/store/jobs/access';
import { answer } from '../http/sitework/support.ts';
import { CAST, PASSWORD, withCast, type CastName } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { phoneOf, type Phone } from '../support/phone.ts';
import { withSite } from '../support/site.ts';
import { setClock } from '../support/sameHour.ts';
import { siteJob } from '../support/siteJob.ts';
import {
  addNote,
  goTo,
  isKept,
  kept,
  loneSteps,
  noneHere,
  outbox,
  signsAndEnds,
  standingOn,
  store,
  outlivesAKill,
  until,
  wayInOf,
} from '../support/sitePhone.ts';
import { expectAccessible } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const service = testService();
withCast(service);
withStarter(service);
const site = withSite(service);
let anna: Phone;
let ben: Phone;
let lone: string[];
/** How to get in, as Ben's phone keeps it. */
let wayIn: object | undefined;
/** Ids of everything that was written on a phone. */
const written = new Set<string>();

beforeAll(async () => {
  const { jobId } = await siteJob(service, { startsAt: new Date() });
  const access = { opener: '', phone: '', opensAt: null, pets: '', keyBox: '4711', changedAt: new Date(), changedBy: CAST.office.id };
  await service.database.transaction((tx) => saveAccess(tx, jobId, access));
  anna = await phoneOf(site, 'anna');
  ben = await phoneOf(site, 'ben');
});
afterAll(() => Promise.all([anna?.close(), ben?.close()]));

type Stored = { id: string; seq: number; step: string; observed: string; written: string; note: string | null };
const stored = () =>
  service.database.read.rows<Stored>(
    `SELECT e.id::text AS id, e.device_seq AS seq, e.step_key AS step, e.observed_by::text AS observed, e.written_by::text AS written, t.body AS note
     FROM step_entry e LEFT JOIN kept_text t ON t.id = e.text_id ORDER BY e.written_by, e.device_id, e.device_seq`,
  );
const records = () =>
  service.database.read.rows<{ id: string; state: string; ended: string | null; asked: string | null }>(
    'SELECT id::text AS id, state, ended_as AS ended, seal_asked_by::text AS asked FROM site_record',
  );
const shot = async (page: Page, name: string): Promise<void> =>
  void (process.env.SCREENS && (await page.screenshot({ path: `${process.env.SCREENS}/${name}.png`, fullPage: true })));

/** The app and today's visits are on the phone. */
async function ready(phone: Phone): Promise<void> {
  await phone.open('/my-day');
  await phone.page.getByRole('link', { name: 'Get ready to start' }).waitFor();
  await phone.page.evaluate(async () => void (await navigator.serviceWorker.ready));
  const handedOut = (ahead: Ahead | undefined): boolean => ahead?.visits.every(({ offerId }) => offerId !== null) ?? false;
  await expect.poll(async () => handedOut((await kept(phone.page, '["ahead"')) as Ahead | undefined)).toBe(true);
}

const noteWritten = async (page: Page): Promise<void> => {
  for (const { id, what } of await outbox(page)) if (what.kind === 'entry') written.add(id);
};
/** Everything that the phones do not record, straight to the service, by whoever it misses. */
async function recordTheRest(by: readonly CastName[]): Promise<void> {
  const { id } = (await records())[0]!;
  for (const who of by) {
    const headers = { 'content-type': 'application/json', cookie: '', 'idempotency-key': randomUUID() };
    const session = await fetch(`${site.url}/api/session`, {
      method: 'POST',
      headers,
      body: JSON.stringify({ email: CAST[who].email, password: PASSWORD }),
    });
    headers.cookie = session.headers.get('set-cookie')!.split(';')[0]!;
    const { steps, missing } = (await (await fetch(`${site.url}/api/records/${id}`, { headers })).json()) as MemberRecord;
    const entries = missing
      .filter(({ kind, person }) => kind === 'entry' && (person === null || person === CAST[who].id))
      .map((m) => steps.find((s) => s.stepKey === m.stepKey && s.itemId === m.itemId)!)
      .filter(({ title }) => !lone.slice(0, 2).includes(title))
      .map((step) => answer(step, who));
    const sent = await fetch(`${site.url}/api/records/${id}/entries`, { method: 'POST', headers, body: JSON.stringify({ entries }) });
    expect(sent.status).toBe(201);
    const { results } = (await sent.json()) as { results: { id: string; stored: boolean }[] };
    expect(results.filter((result) => !result.stored)).toEqual([]);
    for (const result of results) written.add(result.id);
  }
}

describe('a day without signal', () => {
  it('opens my day, shows how to get in, and starts the visit on both phones, at once and without asking anybody', async () => {
    await Promise.all([ready(anna), ready(ben)]);
    for (const phone of [anna, ben]) {
      await phone.cut(true);
      const took = await phone.open('/my-day');
      expect(took, 'milliseconds until my day shows').toBeLessThan(3000);
      await phone.page.getByText('No connection; as of').waitFor();
      await phone.page.getByRole('button', { name: 'Show how to get in' }).click();
      await phone.page.getByText('4711').waitFor();
      await shot(phone.page, 'offline-my-day-390');
      await phone.page.getByRole('link', { name: 'Get ready to start' }).click();
      await phone.page.getByText('Agreement and fee are in order.').waitFor();
      await shot(phone.page, 'offline-start-390');
      if (phone === anna) await outlivesAKill(anna);
      await phone.page.getByRole('button', { name: 'Start the visit' }).click();
      await until(phone.page, 0);
      await phone.page.getByText(/^1 not sent yet/).waitFor();
    }
    lone = await loneSteps(anna.page);
    await expectAccessible(anna.page);
    await shot(anna.page, 'offline-record-390');
    expect(await records()).toEqual([]);
  });

  it('keeps every entry, and what is half typed, through a killed browser and a clock that is five hours wrong', async () => {
    const { page } = anna;
    const address = new URL(page.url()).pathname;
    await goTo(page, lone[0]!);
    await addNote(page, 'first look');
    await noneHere(page);
    await goTo(page, lone[1]!);
    await addNote(page, 'Ben called it out');
    await noneHere(page, CAST.ben.name);
    await goTo(page, lone[4]!);
    await addNote(page, 'half a sen');
    await page.getByText('Add a thing found here').click();
    await page.getByLabel('Name').fill('upstairs bath');
    await anna.open(`${address}/damage`);
    await anna.page.getByLabel('In your words').fill('a tile crac');
    await isKept(anna.page, 'a tile crac');
    await anna.kill();
    await anna.open(`${address}/damage`);
    expect(await anna.page.getByLabel('In your words').inputValue()).toBe('a tile crac');
    await anna.open(address);
    await until(anna.page, 2);
    await anna.page.getByText(/^3 not sent yet/).waitFor();
    await goTo(anna.page, lone[4]!);
    expect(await anna.page.getByLabel('Note (not needed)').inputValue()).toBe('half a sen');
    await anna.page.evaluate(setClock, 5 * 3_600_000);
    await goTo(anna.page, lone[0]!);
    await anna.page.getByRole('button', { name: 'Correct this' }).click();
    await anna.page.getByText('looked again').click();
    await addNote(anna.page, 'second look');
    await anna.page.getByRole('button', { name: 'None at this property' }).click();
    await anna.page.getByText('second look').waitFor();
    await anna.page.getByText('Add a thing found here').click(); // its name was typed before the kill
    await anna.page.getByRole('button', { name: 'Add it' }).click();
    await anna.page.getByText(/upstairs bath: \d+ steps? added/).waitFor();
    expect(await stored()).toEqual([]);
  });

  it('ends there too: times, sign-off, end and the wish to seal are kept in their order', async () => {
    await signsAndEnds(anna.page);
    await anna.page.getByRole('button', { name: 'Seal the record' }).click();
    await shot(anna.page, 'offline-seal-ask-390');
    await anna.page.getByRole('button', { name: 'Seal it' }).click();
    await anna.page.getByText('Sealed when both phones have sent').waitFor();
    await expectAccessible(anna.page);
    await shot(anna.page, 'offline-seal-390');
    await noteWritten(anna.page);
  });

  it('asks before signing out on a phone that changes hands, shows nothing of the other, and sends it when its person is back', async () => {
    const { page } = ben;
    const address = new URL(page.url()).pathname;
    await goTo(page, lone[2]!);
    await noneHere(page);
    await noteWritten(page);
    await page.route(/\/(record|entries)$/, (route) => route.abort());
    await ben.cut(false);
    await page.getByRole('button', { name: 'Menu' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Sign out' }).click();
    const asked = page.getByRole('dialog', { name: 'Not everything is sent' });
    await asked.getByText('2 not sent yet.').waitFor();
    await shot(page, 'sign-out-390');
    await asked.getByRole('button', { name: 'Sign out all the same' }).click();
    await page.getByRole('heading', { name: 'Sign in' }).waitFor();
    await site.signIn(page, 'cora');
    await ben.open('/my-day');
    await ben.page.getByText('Everything is sent.').waitFor();
    expect(await ben.page.getByText('14 Alder Road').count()).toBe(0);
    expect(await records()).toEqual([]);
    await site.signIn(ben.page, 'ben');
    await ben.open('/my-day');
    await expect.poll(async () => (await stored()).length, { timeout: 30_000 }).toBe(1);
    await recordTheRest(['anna', 'ben']);
    service.clock.now = new Date(service.clock.now.getTime() + 3_600_000);
    await ben.open(address);
    await ben.page.getByText('Everything is sent.').waitFor();
    await expect.poll(async () => (wayIn = await wayInOf(ben.page))).toMatchObject({ data: { keyBox: '4711' } });
    await ben.cut(true);
    await signsAndEnds(ben.page);
    await noteWritten(ben.page);
  });

  it('is sent when the signal comes back, though a sign-in ran out, it is cut in the middle and sent twice: one record, all of it, once', async () => {
    await service.database.transaction((tx) =>
      tx.db.session.updateMany({ where: { personId: CAST.anna.id }, data: { endedAt: new Date() } }),
    );
    const lost: string[] = [];
    /** The service takes it, but its answer is lost on the way. */
    const lose = async (route: Route): Promise<void> => {
      const { pathname } = new URL(route.request().url());
      if (lost.includes(pathname) || !anna.page.url().includes('seal')) return route.continue();
      if ((await route.fetch()).status() === 401) return route.continue();
      lost.push(pathname);
      await route.abort('connectionreset');
    };
    await anna.page.route(/\/api\/(visits|records)\/.*\/(record|entries|end|seal)$/, lose);
    await anna.cut(false);
    const asked = anna.page.getByRole('dialog', { name: 'Your session has ended' });
    await asked.getByRole('button', { name: 'Close' }).click({ timeout: 30_000 });
    await anna.page.click('text=Sign in to send it', { timeout: 5_000 }).catch(() => {}); // unless another request has asked again already
    await asked.getByLabel('E-mail address').fill(CAST.anna.email);
    await asked.getByLabel('Password', { exact: true }).fill(PASSWORD);
    await asked.getByRole('button', { name: 'Sign in' }).click();
    await anna.page.getByText('Everything is sent.').waitFor({ timeout: 30_000 });
    expect(lost.map((path) => path.split('/').at(-1))).toEqual(['record', 'entries', 'end', 'seal']);
    const { id } = (await records())[0]!;
    expect(await records()).toEqual([{ id, state: 'open', ended: 'complete', asked: CAST.anna.id }]);
    const rows = await stored();
    const byHand = rows.filter(({ note }) => note !== null && /look$|called it out$/.test(note));
    expect(byHand.map(({ note, observed }) => [note, observed])).toEqual([
      ['first look', CAST.anna.id],
      ['Ben called it out', CAST.ben.id],
      ['second look', CAST.anna.id],
    ]);
  }, 90_000);

  it('is sealed by itself when the last of the other phone has come; both phones and the service have the same', async () => {
    await recordTheRest(['ben']); // steps of what Anna found
    service.clock.now = new Date(service.clock.now.getTime() + 3_600_000);
    await ben.cut(false);
    await ben.page.getByRole('heading', { name: 'Sealed record' }).waitFor({ timeout: 30_000 });
    await anna.open(new URL(anna.page.url()).pathname);
    await anna.page.getByRole('heading', { name: 'Sealed record' }).waitFor();
    expect(await records()).toMatchObject([{ state: 'sealed' }]);
    const rows = await stored();
    expect(rows.map(({ id }) => id).toSorted()).toEqual([...written].toSorted());
    const corrected = rows.find(({ note }) => note === 'first look')!.id;
    const standing = [...written].filter((id) => id !== corrected).toSorted();
    for (const phone of [anna, ben]) {
      await expect.poll(() => standingOn(phone.page)).toEqual(standing);
      await expect.poll(() => outbox(phone.page)).toEqual([]);
    }
  });

  it('forgets the codes of the house with the day', async () => {
    await ben.cut(true);
    await ben.page.evaluate(
      (codes) =>
        new Promise<void>((done) => {
          const opening = indexedDB.open('backsight');
          opening.addEventListener('success', () => {
            const tx = opening.result.transaction('replies', 'readwrite');
            tx.objectStore('replies').put({ ...(codes as object), at: Date.now() - 86_400_000 });
            tx.addEventListener('complete', () => done(opening.result.close()));
          });
        }),
      wayIn as unknown,
    );
    await ben.open('/my-day');
    const names = (await store<{ name: string }>(ben.page, 'replies')).map(({ name }) => name);
    expect(names.filter((name) => name.includes('way-in'))).toEqual([]);
    expect(names).toContain('["my-day"]');
  });
});

describe('an address that is not secure', () => {
  it('says that it cannot be used without signal', async () => {
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
