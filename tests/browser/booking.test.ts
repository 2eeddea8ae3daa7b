// Booking in the browser beside the day of the office: nothing lost on a reload, every press answered, a time that was taken meanwhile.
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { tabTo } from '../support/keyboard.ts';
import { staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const site = staffApp();
withStarter(site);

describe('booking', () => {
  it('loses nothing on a reload, nor while another caller is served, and says what is no number of a house', async () => {
    const page = await site.openAs('office', '/book');
    const name = page.getByLabel('Name', { exact: false }).first();
    await name.fill('Rita Reload');
    await page.getByLabel('Living area').fill('3100');
    await page.getByLabel('Year built').fill('19622');
    await page.getByText('A number from 1700 to 2100').waitFor();
    await page.keyboard.press('Alt+n');
    await expect.poll(() => name.inputValue()).toBe('');
    await page.keyboard.type('Sam Second');
    await page.reload();
    await expect.poll(() => name.inputValue()).toBe('Sam Second');
    await page.getByRole('button', { name: 'Go on with Rita Reload' }).click();
    await expect.poll(() => page.getByLabel('Living area').inputValue()).toBe('3100');
    expect(await name.inputValue()).toBe('Rita Reload');
    await page.getByRole('button', { name: 'Go on with Sam Second' }).waitFor();
  });

  it('updates price and time while one types, with the reason of each line', async () => {
    const page = await site.openAs('office', '/book');
    const panel = page.getByRole('region', { name: 'Price and time' });
    await page.getByLabel('Living area').fill('1800');
    await panel.getByRole('status').getByText('$465.00').waitFor();
    await page.getByLabel('Year built').fill('1950');
    await panel.getByRole('status').getByText('$515.00').waitFor();
    await panel.getByText('built before 1980').waitFor();
    // The state is the firm's until another is said; then what its rules say of the agreement stands open.
    const state = page.getByLabel('State', { exact: true });
    await expect.poll(() => state.inputValue()).toBe('US-WI');
    await state.selectOption('US-IL');
    await page.getByText('The firm has not taken up the rules of Illinois').waitFor();
    await page.getByText('A written agreement with the client before the inspection.').waitFor();
    await page.getByText('68 Ill. Adm. Code 1410.200').first().waitFor();
  });

  it('answers every press on the hold, also while the fee is worked out anew, and holds at no fee but the one shown', async () => {
    const page = await site.openAs('office', '/book');
    const hold = page.getByRole('button', { name: /Hold this time/ });
    await page.getByLabel('Street address').fill('7 Patience Lane');
    await page.getByLabel('Town').selectOption('Birchmere');
    await page.getByRole('radio').first().check();
    await tabTo(page, /Hold this time for/);
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText('Still needed for a hold: the name of the caller.').waitFor();
    await page.getByLabel('Name', { exact: false }).first().fill('Petra Patience');
    await page.route('**/api/quotes', async (route) => {
      await new Promise((done) => setTimeout(done, 1_000));
      await route.continue();
    });
    await page.getByLabel('Year built').fill('1950');
    await hold.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText('Tell the caller before holding the time.').waitFor();
    await page.getByRole('region', { name: 'Price and time' }).getByText('built before 1980').waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /^Job \d+/ }).waitFor();
  });

  it('answers a time that was taken meanwhile with other choices, each one button', async () => {
    const [one, two] = [await site.openAs('office', '/book'), await site.openAs('owner', '/book')];
    for (const [n, page] of [one, two].entries()) {
      await page.getByLabel('Name', { exact: false }).first().fill(`Racer ${n}`);
      await page.getByLabel('Street address').fill(`${n + 1} Race Road`);
      await page.getByLabel('Town').selectOption('Birchmere');
      await page.getByRole('radio').first().check();
    }
    const hold = (page: Page) => page.getByRole('button', { name: /Hold this time for/ }).click();
    await hold(one);
    await one.getByRole('heading', { name: /^Job \d+/ }).waitFor();
    await hold(two);
    await two
      .getByRole('alert')
      .getByRole('button', { name: /^Take / })
      .first()
      .click();
    await hold(two);
    await two.getByRole('heading', { name: /^Job \d+/ }).waitFor();
  });
});
