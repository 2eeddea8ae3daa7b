// The office brings past jobs in from a spreadsheet with the keyboard alone, sees what came of it, and takes them out again.
import { expect, it } from 'vitest';
import { bringIns } from '../../apps/api/src/jobs/bringIns.ts';
import { pastJob, pastJobs } from '../support/bringIn.ts';
import { pressOn, tabTo } from '../support/keyboard.ts';
import { servicesOf } from '../support/services.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);
/** What the clock does. */
const work = () => bringIns.run(servicesOf(app));
const jobs = async (): Promise<number> => (await app.database.read.rows<{ n: number }>('SELECT count(*)::int AS n FROM job'))[0]!.n;

it('past jobs come in by the keyboard alone, and leave again', async () => {
  const page = await app.openAs('office', '/bring-in');
  await page.getByRole('radio', { name: 'Jobs done before' }).waitFor();
  await expectAccessible(page);
  await tabTo(page, /^People of the firm/);
  for (let press = 0; press < 3; press++) await page.keyboard.press('ArrowDown');
  expect(await page.getByRole('radio', { name: 'Jobs done before' }).isChecked()).toBe(true);
  await pressOn(page, /^Read its columns$/);
  await page.getByText('Choose a file, or paste its rows below.').waitFor();
  await page.locator('textarea').first().focus();
  await page.keyboard.insertText(pastJobs(pastJob(1), pastJob(2, { first: 'Nobody Known' }), pastJob(3, { fee: '12' })));
  await pressOn(page, /^Read its columns$/);

  await page.getByLabel('Column for Day of the inspection').waitFor();
  expect(await page.getByLabel('Column for Report handed over').locator('option:checked').innerText()).toBe('Report date');
  await page.getByText('3/9/2025 is read as Sun, Mar 9, 2025').waitFor();
  await expectAccessible(page);
  await pressOn(page, /^Look it through$/);
  await page.getByText('Waiting for its turn').waitFor();
  await work();

  await page.getByText('Nobody here is called "Nobody Known".').waitFor();
  expect(await jobs()).toBe(0);
  await expectAccessible(page);
  await pressOn(page, /^Bring in 2 past jobs$/);
  await page.getByText('Say that these rows may be left out').waitFor();
  await tabTo(page, /^Leave out the 1 row/);
  await page.keyboard.press('Space');
  await pressOn(page, /^Bring in 2 past jobs$/);
  await page.getByText('Waiting for its turn').waitFor();
  await work();

  await page.getByRole('heading', { name: 'What came with it' }).waitFor();
  await page.getByText('Nothing depends on it yet.').waitFor();
  expect(await jobs()).toBe(2);
  await expectAccessible(page);
  await page
    .getByRole('link', { name: /^Job \d/ })
    .first()
    .click();
  await page.getByText('Done before, and brought in').waitFor();
  await expectAccessible(page);
  await page.goBack();
  await page.getByText('Nothing depends on it yet.').waitFor();
  await pressOn(page, /^Take 2 past jobs out again$/);
  await page.getByRole('dialog').getByRole('button', { name: 'Take it out' }).waitFor();
  await pressOn(page, /^Take it out$/);
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await work();
  await page.getByText('taken out again').first().waitFor();
  expect(await jobs()).toBe(0);
});

it('says on a phone why a file cannot be read, and keeps what was chosen', async () => {
  const page = await app.openAs('owner', '/bring-in', 'phone');
  await page.getByRole('radio', { name: 'Clients' }).check();
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'clients.xlsx', mimeType: 'text/csv', buffer: Buffer.from('PK\u0003\u0004 and more') });
  await page.getByRole('button', { name: 'Read its columns' }).click();
  await page.getByText('This is a workbook, not a table of text.').first().waitFor();
  expect(await page.getByRole('radio', { name: 'Clients' }).isChecked()).toBe(true);
  const sample = await page.request.get(
    new URL((await page.getByRole('link', { name: 'Sample: clients' }).getAttribute('href'))!, page.url()).href,
  );
  expect((await sample.text()).split('\r\n')[0]).toBe('First name,Last name,E-mail,Phone');
});
