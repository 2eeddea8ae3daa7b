// With gloves on: a reading by large keys of our own, a note by speaking, and what is left in sight.
import { afterAll, expect, it } from 'vitest';
import { launch } from '../support/browser.ts';
import { withCast } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { withSite } from '../support/site.ts';
import { siteJob } from '../support/siteJob.ts';
import { withStarter } from '../support/starter.ts';

const service = testService();
withCast(service);
withStarter(service);
const site = withSite(service);
const close: (() => Promise<void>)[] = [];
afterAll(() => Promise.all(close.map((one) => one())));

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

it('speaks a note and presses a reading on a phone', async () => {
  const job = await siteJob(service, { startsAt: new Date() });
  const browser = await launch();
  close.push(() => browser.close());
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
    serviceWorkers: 'block',
  });
  await context.addInitScript(hearing);
  const page = await context.newPage();
  await site.signIn(page, 'anna');
  await page.goto(`${site.url}/visits/${job.visitId}/start`);
  await page
    .getByRole('button', { name: /^Start/ })
    .last()
    .click();
  await page.getByText(/^\d+ left, \d+ of them here$/).waitFor();
  await page.getByText('Add a note').first().click();
  await page.getByRole('button', { name: 'Speak the note' }).click();
  await expect.poll(() => page.getByLabel('Note (not needed)').inputValue()).toBe('loose at the elbow');
  await page.getByRole('button', { name: 'Stop listening' }).click();
  const reading = page.getByLabel(/^Reading in/).first();
  await expect
    .poll(async () => {
      await page.getByRole('button', { name: 'Next' }).click();
      return reading.isVisible();
    })
    .toBe(true);
  await reading.tap();
  for (const key of ['7', 'Point', '5', 'Minus']) await page.getByRole('button', { name: key, exact: true }).tap();
  expect(await reading.inputValue()).toBe('-7.5');
});
