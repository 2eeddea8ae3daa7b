// The office manager's Monday, by keyboard alone on one page: a job is booked, a caller answered, a visit moved, a signature chased, a check
// recorded. Each task keeps to its inputs; the focus is never lost, and what happened is said aloud.
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { issueAgreementOfJob } from '@backsight/usecases/agreements/issue';
import { issueInvoiceOfJob } from '@backsight/usecases/fees/issue';
import { as } from '../support/cast.ts';
import { inputsOf } from '../support/inputs.ts';
import { focused, pressOn, tabTo } from '../support/keyboard.ts';
import { paidJob } from '../support/paidJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);
const day = inputsOf('office manager');
const DAY = 86_400_000;
let page: Page;

beforeAll(async () => {
  const { jobId } = await paidJob(app, { startsAt: new Date(app.clock.now.getTime() + 3 * DAY) });
  await app.runner.run(issueAgreementOfJob, { jobId, publicUrl: 'http://backsight.example' }, { actor: as('office') });
  await app.runner.run(issueInvoiceOfJob, { jobId }, { actor: as('office') });
  page = await app.openAs('office', '/');
  await page.getByRole('heading', { name: 'Home' }).waitFor();
  await day.watch(page.context());
});

/** What a screen reader says by itself. */
const says = (words: string | RegExp): Promise<void> => page.getByRole('status').getByText(words).last().waitFor();
const hasFocus = (name: string | RegExp): Promise<void> => expect.poll(() => focused(page)).toMatch(name);
/** Another screen: the keyboard goes on from its content. */
const arrives = async (title: string | RegExp): Promise<void> => {
  await page.getByRole('heading', { name: title, level: 1 }).waitFor();
  await page.waitForFunction(() => document.activeElement?.id === 'main');
};
/** From wherever one is, by the go-to box. */
async function goTo(typed: string, found: string | RegExp): Promise<void> {
  await page.keyboard.press('/');
  await hasFocus('Go to');
  await page.keyboard.type(typed);
  await says(/^\d+ found$/);
  await page.keyboard.press('Enter');
  await arrives(found);
}
async function type(name: RegExp, text: string): Promise<string[]> {
  const passed = await tabTo(page, name);
  await page.keyboard.type(text);
  return passed;
}

describe("the office manager's Monday", () => {
  it('books a job while the caller is on the phone: a held time with its price, then confirmed', async () => {
    const order: string[] = [];
    const fill = async (name: RegExp, text: string) => void order.push(...(await type(name, text)).slice(1));
    const enough = { atMost: 12, because: 'the caller waits: a held time with a price in 60 seconds' };
    await day.task('from home to a held time with its price', enough, async () => {
      await pressOn(page, /^Book a job/);
      await hasFocus(/^Name/); // where the first answer of the caller goes
      await fill(/^Name/, 'Karla Caller');
      await fill(/^Phone/, '920-555-0144');
      await fill(/^E-mail/, 'karla@test.example');
      await fill(/^Street address/, '12 Alder Street');
      await fill(/^Town/, 'Port');
      await fill(/^Living area/, '2150');
      await fill(/^Year built/, '1962');
      await page.getByRole('region', { name: 'Price and time' }).getByText('built before 1980').waitFor(); // the price of all that was said
      await page.getByRole('radio').first().waitFor();
      // Enter goes on: to the starts, and from the chosen one to the hold.
      for (const key of ['Enter', 'Space', 'Enter']) await page.keyboard.press(key);
      await hasFocus(/^Hold this time for/);
      await says(/^\$\d/);
      await page.keyboard.press('Enter');
      await says(/^Job \d+ is held/);
      await arrives(/^Job \d+/);
    });
    expect(order).toEqual([
      ...['Is the', 'Phone', 'E-mail address', 'Street address *', 'Town *', 'State', 'Living area (sq ft)', 'Year built'],
    ]);
    await page.getByRole('region', { name: 'Still to get' }).getByText('access agreed').waitFor();
    await day.task('the booking confirmed, and the access noted', { atMost: 4, because: 'two things, each opened and done' }, async () => {
      await pressOn(page, /^Confirm the booking/);
      await says(/^The job is booked; invoice \d+ and the agreement are issued/);
      // The button is gone; whoever works by keyboard goes on from the page, not from nowhere.
      await page.waitForFunction(() => document.activeElement?.id === 'main');
      await page.getByText(/signed by 0 of 1/).waitFor();
      await pressOn(page, /^Note: access agreed/);
      await type(/^Who said so/, 'Sven Seller');
      await page.keyboard.press('Enter');
      await says('The access is noted.');
    });
    await page.getByText('2 settled').waitFor();
  });

  it('answers a caller who asks when we come, and logs the call', async () => {
    await day.task('from the name to the answer, and the call logged', { atMost: 5, because: 'the caller waits' }, async () => {
      await goTo('paula', /^Job \d+/);
      await page.getByText(/signed by 0 of 1/).waitFor();
      await pressOn(page, /^Log a call/);
      await hasFocus(/^reached \(R\)/);
      await page.keyboard.press('r');
      await says('The contact is logged.');
    });
    await hasFocus('Log a call');
  });

  it('moves the visit, with what it makes of the fee said before', async () => {
    const visits = page.getByRole('region', { name: 'Visits' });
    const before = await visits.getByText(/, booked: /).textContent();
    await day.task('the visit moved', { atMost: 3, because: 'opened, chosen, done' }, async () => {
      await pressOn(page, /^Move$/);
      await hasFocus('From');
      await expect.poll(() => page.getByLabel('Which day').locator('option').count()).toBe(16); // the best, all, and each of 14 days
      await tabTo(page, / first, /);
      await page.keyboard.press('Space');
      await says('The fee stays as it is at this time.');
      await pressOn(page, /^Move the visit/);
      await says('The visit was moved, and the client was told by mail.');
    });
    await hasFocus(/^Move$/);
    expect(await visits.getByText(/, booked: /).textContent()).not.toBe(before);
  });

  it('chases a signature that is missing', async () => {
    await day.task('from home to a fresh link', { atMost: 4, because: 'home, the line, the act, and its question' }, async () => {
      await pressOn(page, /^Home/);
      await arrives('Home');
      await page.getByRole('heading', { name: /^Agreements not signed/ }).waitFor();
      await pressOn(page, /^Get it signed: .*Alder Road/);
      await arrives(/^Agreement of job/);
      await pressOn(page, /^Send the link again/);
      await page.getByRole('dialog', { name: 'Send the link' }).waitFor();
      await pressOn(page, /^Send it/);
      await says('A fresh link is made. Copy it, and pass it on.');
    });
    await hasFocus('Send the link again');
    // Escape leaves a question, and the focus is where it was asked.
    await page.keyboard.press('Enter');
    await page.getByRole('dialog', { name: 'Send the link' }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await hasFocus('Send the link again');
  });

  it('records a check: refused where it is too much, then paid in full; and takes it back', async () => {
    const task = 'from the client to a paid invoice, with one refusal';
    await day.task(task, { atMost: 12, because: 'found, opened, four for the check, three more for the mistake' }, async () => {
      await goTo('paula', /^Job \d+/);
      await pressOn(page, /of \$[\d,.]+ paid/);
      await arrives(/^Invoice \d+/);
      await pressOn(page, /^Record a payment/);
      await page.getByRole('dialog', { name: 'Record a payment' }).waitFor();
      await hasFocus('Amount');
      await page.keyboard.press('Control+a');
      await page.keyboard.type('600');
      await type(/^Number of the check/, '2214');
      await page.keyboard.press('Enter');
      await page.getByRole('alert').getByText('Only $575.00 is open').first().waitFor();
      expect(await page.getByRole('alert').evaluate((box) => box === document.activeElement)).toBe(true);
      await page.keyboard.press('Tab'); // the input at fault comes next after the summary
      await hasFocus('Amount');
      await page.keyboard.press('Control+a');
      await page.keyboard.type('575');
      await page.keyboard.press('Enter');
      await says('Recorded. The invoice is paid in full.');
    });
    await page.getByText('paid in full', { exact: true }).waitFor();
    await pressOn(page, /^Take back/);
    await page.getByRole('dialog', { name: 'Take a payment back' }).waitFor();
    await pressOn(page, /^Take it back/);
    await says('Taken back. The invoice is open again.');
    await page
      .getByText(/the check came back/)
      .first()
      .waitFor();
    await expectAccessible(page);
  });
});
