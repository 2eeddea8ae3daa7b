// An inspector's day on a phone of 390 px: started from my day, a step with its partner check, a note spoken and a reading pressed with gloves
// on; then every step without signal, and at the end both sign off and the record is sealed. Inputs are counted for each of the pair.
import path from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SiteStep } from '@backsight/contract/sitework';
import { burdenOf } from '@backsight/domain/sitework/burden';
import type { PackageStep } from '@backsight/domain/sitework/package';
import { violationsOn } from '../support/axe.ts';
import { launch } from '../support/browser.ts';
import { withCast, type CastName } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { inputsOf } from '../support/inputs.ts';
import { picture } from '../support/pictures.ts';
import { withSite } from '../support/site.ts';
import { siteJob, type SiteJob } from '../support/siteJob.ts';
import { lowTargets } from '../support/sitePhone.ts';
import { withStarter } from '../support/starter.ts';

const service = testService();
withCast(service);
withStarter(service);
const site = withSite(service);
const shots = process.env.SCREENSHOTS;
let browser: Browser;
let job: SiteJob;
const phones = new Map<CastName, Page>();
const days = { anna: inputsOf('inspector, first of the pair'), ben: inputsOf('inspector, second of the pair') };
/** The product's own: what a record may ask of each of the pair at a median house; this one is smaller, and Anna does all that is shared. */
const PER_PERSON = { atMost: 120, because: 'at a median house 120 inputs per person' };

beforeAll(async () => {
  browser = await launch();
  job = await siteJob(service, { facts: { ...SMALL } });
});
afterAll(() => browser?.close());

const SMALL = {
  kind: 'single_family',
  yearBuilt: 1990,
  livingArea: 900,
  stories: 1,
  bathrooms: 1,
  features: [],
  foundation: ['slab'],
  coolingKind: 'none',
  heatingKind: ['forced_air'],
  heatingFuel: ['natural_gas'],
  panels: 1,
  waterHeaters: 1,
  heatingSystems: 1,
} as const;

/** Hears the same words whenever it listens. */
function hearing(): void {
  class Recognizer {
    onresult: ((heard: unknown) => void) | null = null;
    onend: (() => void) | null = null;
    start(): void {
      const result = Object.assign([{ transcript: ' loose at the elbow' }], { isFinal: true });
      setTimeout(() => this.onresult?.({ resultIndex: 0, results: [result] }), 50);
    }
    stop(): void {
      this.onend?.();
    }
  }
  Object.assign(window, { SpeechRecognition: Recognizer });
}

async function phone(who: 'anna' | 'ben'): Promise<Page> {
  const known = phones.get(who);
  if (known) return known;
  const context: BrowserContext = await browser.newContext({
    viewport: { width: 390, height: 800 },
    hasTouch: true,
    serviceWorkers: 'allow',
  });
  await context.addInitScript(hearing);
  await days[who].watch(context);
  const page = await context.newPage();
  await site.signIn(page, who);
  phones.set(who, page);
  return page;
}

async function look(page: Page, name: string): Promise<void> {
  if (shots) await page.screenshot({ path: path.join(shots, `${name}.png`), fullPage: true });
  const violations = await violationsOn(page);
  expect(
    violations.filter(({ impact }) => impact === 'serious' || impact === 'critical').map((v) => `${v.id}: ${v.nodes[0]?.html}`),
  ).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth), `${name} is no wider than the phone`).toBeLessThanOrEqual(390);
}

const recordId = async (): Promise<string> =>
  (await service.database.read.rows<{ id: string }>('SELECT id::text AS id FROM site_record WHERE visit_id = $1::uuid', [job.visitId]))[0]!
    .id;
const stored = async (): Promise<number> =>
  (await service.database.read.rows<{ n: number }>('SELECT count(*)::int AS n FROM step_entry'))[0]!.n;

/** A step of the record as the computed burden takes it. */
const asHandedOut = (step: SiteStep): PackageStep =>
  ({
    step: { ...step, key: step.stepKey, sequence: step.sequence ?? undefined },
    item: step.itemId === null ? null : { id: step.itemId, kind: step.per, name: '' },
    procedureKey: step.procedureTitle,
    partnerCheck: step.partnerCheck,
  }) as unknown as PackageStep;

/** The one act of a page of steps. */
const ACT = /^(Done$|Confirm all of these|Record \d+ of)/;
const PHOTO = 3; // asked for, taken, kept

/** Inputs that the walk has made at steps, and how many of them were for what an ordinary answer does not ask: a note on a reading. */
const made = { steps: 0, exceptions: 0 };

/** Answers whatever the page asks, with the first answer, the number 1 or a small picture, and counts each input. */
async function answerPage(page: Page): Promise<void> {
  const main = page.locator('main');
  for (const set of await main.getByRole('group', { name: 'What was found' }).all()) {
    await set.getByRole('radio').first().check();
    made.steps += 1;
  }
  for (const box of await main.locator('input:is([inputmode="decimal"], [inputmode="none"])').all()) {
    await box.fill('1');
    made.steps += 1;
  }
  for (const note of await main.getByLabel('Note', { exact: true }).all()) {
    await note.fill('as seen');
    made.steps += 1;
  }
  for (const note of await main.getByLabel('Note: what you make of it').all()) {
    await note.fill('as seen');
    made.exceptions += 1;
  }
  for (const photo of await main.getByRole('group', { name: /^Photo of/ }).all()) {
    await photo
      .locator('input[type=file]')
      .last()
      .setInputFiles({ name: 'shot.jpg', mimeType: 'image/jpeg', buffer: await picture('jpeg') });
    await photo.getByRole('button', { name: /^Remove/ }).waitFor();
    made.steps += PHOTO;
  }
  await main.getByRole('button', { name: ACT }).click();
  made.steps += 1;
}

/** From the page that is open to the last that wants anything, or until this part of all is recorded. */
async function walk(page: Page, part = 1): Promise<void> {
  const recorded = page.getByText(/ of \d+ recorded$/);
  const act = page.locator('main').getByRole('button', { name: ACT });
  const next = page.getByRole('button', { name: 'Next', exact: true });
  const clear = page.getByRole('button', { name: 'None of these is there' });
  await recorded.waitFor();
  for (let turn = 0; turn < 180; turn++) {
    const before = (await recorded.textContent()) ?? '';
    const [done, all] = before.match(/\d+/g)!.map(Number) as [number, number];
    if (part < 1 && done >= part * all) break;
    if (await clear.count()) {
      await clear.click();
      await clear.waitFor({ state: 'detached' }); // the steps behind it come when it is written, not at the press
    }
    if (await act.count()) {
      await answerPage(page);
      await page.waitForFunction((text) => !document.body.innerText.includes(text), before);
    } else if (await next.isDisabled()) break;
    else await next.click();
  }
}

describe("an inspector's day", () => {
  it('is started from my day', async () => {
    const page = await phone('anna');
    await page.goto(`${site.url}/my-day`);
    await page.getByText('Seller opens at the side door').waitFor();
    await days.anna.task('from my day to the first step', { atMost: 2, because: 'gloves come on after it' }, async () => {
      await page.getByRole('link', { name: 'Get ready to start' }).click();
      await page.getByText('Agreement and fee are in order.').waitFor();
      await page.getByRole('button', { name: 'Start the visit' }).click();
      await page.getByText(/^0 of \d+ recorded$/).waitFor();
    });
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  });

  it('records a step with a large button, and says what is missing before it takes it', async () => {
    const page = await phone('anna');
    await page.getByRole('button', { name: 'Done', exact: true }).click();
    await page.getByRole('alert').getByText('Choose an answer.').waitFor();
    await answerPage(page);
    await page.getByText(/^1 of \d+ recorded$/).waitFor();
    expect(await lowTargets(page)).toEqual([]);
    await expect.poll(stored).toBe(1); // it stands on the phone first
  });

  it("hides the partner's answer until one's own is in", async () => {
    const id = await recordId();
    const record = await (await phone('anna')).request.get(`${site.url}/api/records/${id}`).then((r) => r.json());
    const step = record.steps.find((s: { partnerCheck: boolean; evidence: { kind: string } }) => s.partnerCheck);
    const goTo = async (page: Page) => {
      await page.goto(`${site.url}/records/${id}`);
      await page.getByText('All steps').click();
      await page
        .getByRole('button', { name: new RegExp(`^${step.title.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}`) })
        .first()
        .click();
      const clear = page.getByRole('button', { name: 'None of these is there' });
      await page.getByText('Partner check.').or(clear).first().waitFor();
      if (await clear.count()) await clear.click();
      await page.getByText('Partner check.').waitFor();
    };
    for (const who of ['anna', 'ben'] as const) {
      const page = await phone(who);
      await goTo(page);
      if (who === 'ben') {
        await page.getByText('has recorded already').waitFor();
        expect(await page.getByText('Seen by Anna alone').count()).toBe(0);
        await look(page, '5-partner');
      }
      await page.getByText('Add a note').click();
      await page.getByLabel('Note (not needed)').fill(who === 'anna' ? 'Seen by Anna alone' : 'Seen by Ben');
      await answerPage(page);
      await page.getByRole('heading', { name: step.title }).waitFor({ state: 'detached' }); // it goes on by itself
      await page.getByText('Everything is sent.').waitFor();
    }
    await goTo(await phone('ben'));
    await (await phone('ben')).getByText('Seen by Anna alone').waitFor();
    await look(await phone('ben'), '6-compared');
  });

  it('is worked with gloves on: a note is spoken, a reading pressed on large keys', async () => {
    const page = await phone('anna');
    await page.getByText('Add a note').first().click();
    await page.getByRole('button', { name: 'Speak the note' }).click();
    await expect.poll(() => page.getByLabel('Note (not needed)').inputValue()).toBe('loose at the elbow');
    await page.getByRole('button', { name: 'Stop listening' }).click();
    const reading = page.getByLabel(/^Reading in/).first();
    await expect
      .poll(async () => {
        await page.getByRole('button', { name: 'Next', exact: true }).click();
        return reading.isVisible();
      })
      .toBe(true);
    await reading.tap();
    for (const key of ['7', 'Point', '5', 'Minus']) await page.getByRole('button', { name: key, exact: true }).tap();
    expect(await reading.inputValue()).toBe('-7.5');
  });

  it('goes through every step without signal, and sends it once when there is', async () => {
    const id = await recordId();
    const page = await phone('anna');
    await page.goto(`${site.url}/records/${id}?page=0`);
    await page.getByText(/ of \d+ recorded$/).waitFor();
    await page.waitForLoadState('networkidle'); // what a step needs now and then comes behind the first
    const before = await stored();
    const partner = await phone('ben');
    const half = 'about half of a small house, and the partner checks';
    await days.anna.task(half, PER_PERSON, async () => {
      await page.context().setOffline(true);
      await walk(page, 0.5);
      await page.getByText(/^\d+ not sent yet/).waitFor();
      await look(page, '4-not-sent');
      expect(await stored()).toBe(before);
      await page.context().setOffline(false);
      await page.getByText('Everything is sent.').waitFor();
      await partner.goto(`${site.url}/records/${id}?page=0`);
      await partner.waitForLoadState('networkidle');
      await days.ben.task(half, PER_PERSON, () => walk(partner));
      await partner.getByText('Everything is sent.').waitFor();
      await page.reload();
      await page.waitForLoadState('networkidle'); // what the partner recorded has come
      await walk(page);
      await page.getByText('Everything is sent.').waitFor();
    });
    const { steps }: { steps: SiteStep[] } = await partner.request.get(`${site.url}/api/records/${id}`).then((r) => r.json());
    const said = burdenOf(steps.map(asHandedOut));
    expect(made.steps, 'the burden that is computed is what the screens ask for').toBe(said.shared + 2 * said.each);
  }, 300_000);

  it('ends: both sign off, and the record is sealed', async () => {
    const id = await recordId();
    const page = await phone('anna');
    await page.getByRole('link', { name: 'End and seal' }).click();
    await page.getByText('Every step has its entry.').waitFor();
    const own = await phone('ben');
    await own.goto(`${site.url}/records/${id}/seal`);
    for (const one of [own, page]) {
      await one.getByRole('button', { name: 'I sign off: it is as I saw it' }).click();
      await one.getByText('Everything is sent.').waitFor();
    }
    await days.anna.task('ended and sealed', { atMost: 4, because: 'two acts, each with its question' }, async () => {
      await page.getByRole('button', { name: 'End the visit' }).click();
      await page.getByRole('dialog').getByRole('button', { name: 'End the visit' }).click();
      await page.getByRole('button', { name: 'Seal the record' }).click();
      await page.getByRole('button', { name: 'Seal it' }).click();
      await page.getByText('Fingerprint', { exact: true }).waitFor();
    });
    await own.getByText('Fingerprint', { exact: true }).waitFor({ timeout: 8000 }); // on the other phone too, by itself
  });
});
