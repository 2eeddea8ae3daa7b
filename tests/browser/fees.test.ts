// The owner drafts a fee schedule and sees what it would charge; the office keeps a price and takes it up again, and gives discounts: in a real browser.
import { expect, it } from 'vitest';
import { paidJob } from '../support/paidJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);
const STILL_HERE = 'What you typed here earlier is still here. It was not sent.';

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
  await page.reload();
  await page.getByText(STILL_HERE).waitFor();
  await page.getByRole('button', { name: 'Edit Returning client' }).click();
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
  await page.getByText('Give a discount').click();
  await page.getByLabel('Discount', { exact: true }).fill('ten');
  await page.getByText('An amount such as 50 or 49.50').waitFor();
  await page.getByLabel('Discount', { exact: true }).fill('10');
  await page.getByLabel('in', { exact: true }).selectOption('percent');
  await page.getByLabel('Why', { exact: true }).fill('Second house');
  const price = page.getByRole('region', { name: 'Price and time' });
  await price.getByText('Second house, 10% of $465.00').waitFor();
  await price.getByText('$418.50').waitFor();
  await page.getByRole('textbox', { name: 'Name' }).first().fill('Ida Alder');
  await page.getByText('Not booked now: keep the price').click();
  await page.getByLabel('Note').fill('Asks her sister');
  await page.getByRole('button', { name: 'Keep this price' }).click();
  await page.getByRole('button', { name: 'Open the inquiry of Ida Alder' }).click();
  await page.getByRole('button', { name: 'Book it now' }).waitFor();
  await expectAccessible(page);
  await page.getByLabel('In words').fill('Her sister inspects');
  await page.reload();
  await page.getByText(STILL_HERE).waitFor();
  expect(await page.getByLabel('In words').inputValue()).toBe('Her sister inspects');
  await page.getByRole('button', { name: 'Book it now' }).click();
  await expect.poll(() => page.getByRole('textbox', { name: 'Name' }).first().inputValue()).toBe('Ida Alder');
  await price.getByText('Second house, 10% of $465.00').waitFor();
});

it('the owner sets how long things take, and the office looks at a discount before it is given', async () => {
  const owner = await app.openAs('owner', '/services');
  // What is cleared is asked for at its input, and never saved as none.
  const arrival = owner.getByLabel('Minutes: Arrival and opening talk');
  await arrival.fill('');
  await owner.getByRole('button', { name: 'Save the minutes' }).click();
  await owner.getByRole('alert').getByText('A number is needed.').waitFor();
  expect(await arrival.getAttribute('aria-invalid')).toBe('true');
  await arrival.fill('25');
  await owner.getByRole('button', { name: 'Save the minutes' }).click();
  await owner.getByText('The minutes count for what is booked from now on.').waitFor();
  await expectAccessible(owner);
  const { jobId } = await paidJob(app);
  const page = await app.openAs('office', `/jobs/${jobId}`);
  const fee = page.getByRole('region', { name: 'Fee' });
  await page.getByRole('button', { name: 'Add a person' }).click();
  await page.getByRole('textbox', { name: 'Name', exact: true }).fill('Ruth Half');
  await fee.getByRole('button', { name: 'Give a discount' }).click();
  await fee.getByLabel('Discount', { exact: true }).fill('75');
  await fee.getByLabel('Why', { exact: true }).fill('Waited for us');
  await page.reload();
  await page.getByRole('button', { name: 'Add a person' }).click();
  await page.getByText(STILL_HERE).waitFor();
  expect(await page.getByRole('textbox', { name: 'Name', exact: true }).inputValue()).toBe('Ruth Half');
  await fee.getByRole('button', { name: 'Give a discount' }).click();
  await fee.getByRole('button', { name: 'Show the difference' }).click();
  await fee.getByText('Fee: $575.00 before, $500.00 after.').waitFor();
  await expectAccessible(page);
  await fee.getByRole('button', { name: 'Give it' }).click();
  await fee.getByText('-$75.00, Waited for us').waitFor();
  await page.getByText('Discount given or taken off').waitFor();
});
