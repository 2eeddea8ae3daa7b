// The owner drafts a fee schedule and sees what it would charge; the office keeps a price and takes it up again: in a real browser.
import { expect, it } from 'vitest';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);

it('the owner drafts, is told what is wrong, tries and compares', async () => {
  const page = await app.openAs('owner', '/fee-schedules');
  await page.getByLabel('Name of the draft').fill('Draft for spring');
  await page.getByRole('button', { name: 'Copy what is in force into a draft' }).click();
  await page.getByRole('heading', { name: 'Rules of the draft' }).waitFor();
  await page.getByLabel('Kind of rule').selectOption('discount');
  await page.getByRole('button', { name: 'Add a rule' }).click();
  await page.getByLabel('What the client reads').fill('Returning client');
  await page.getByLabel('Percent of all charges').fill('101');
  await page.getByLabel('Reason, as the client reads it').fill('came back to us');
  await page.getByRole('button', { name: 'Save the draft' }).click();
  await page.getByRole('region', { name: 'Returning client' }).getByRole('alert').waitFor();
  expect(await page.getByLabel('Reason, as the client reads it').inputValue()).toBe('came back to us');
  await page.getByLabel('Percent of all charges').fill('10');
  await page.getByRole('region', { name: 'Lines of the fee' }).getByText('came back to us, 10% of').waitFor();
  await page.getByRole('button', { name: 'Save the draft' }).click();
  await page.getByRole('table', { name: 'Differences between the schedules' }).getByText('discount: 10% off, came back to us').waitFor();
  await page.getByRole('button', { name: 'Compare' }).click();
  await page.getByText('A planning estimate').waitFor();
  await expectAccessible(page);
});

it('the office keeps a price and books from it', async () => {
  const page = await app.openAs('office', '/book');
  await page.getByRole('textbox', { name: 'Name' }).first().fill('Ida Alder');
  await page.getByText('Not booked now: keep the price').click();
  await page.getByLabel('Note').fill('Asks her sister');
  await page.getByRole('button', { name: 'Keep this price' }).click();
  await page.getByRole('button', { name: 'Open the inquiry of Ida Alder' }).click();
  await page.getByRole('button', { name: 'Book it now' }).waitFor();
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Book it now' }).click();
  await expect.poll(() => page.getByRole('textbox', { name: 'Name' }).first().inputValue()).toBe('Ida Alder');
});
