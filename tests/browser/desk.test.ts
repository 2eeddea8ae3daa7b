// The rest of the desk in the browser: nobody came, the fee by its rule and booking again; a radon monitor placed and collected on a phone.
import path from 'node:path';
import type { Page } from 'playwright-core';
import { beforeEach, expect, it } from 'vitest';
import { paidJob } from '../support/paidJob.ts';
import { siteJob } from '../support/siteJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);
beforeEach(() => {
  app.clock.now = new Date(); // the browser fills in the real time
});
const shots = process.env.SCREENSHOTS;
const MINUTE = 60_000;
const ago = (minutes: number): Date => new Date(Math.floor((app.clock.now.getTime() - minutes * MINUTE) / MINUTE) * MINUTE);

async function look(page: Page, name: string): Promise<void> {
  if (shots) await page.screenshot({ path: path.join(shots, `${name}.png`), fullPage: true });
  await expectAccessible(page);
}

it('records that nobody came, charges by the rule and books the job again', async () => {
  const { jobId, visitId } = await paidJob(app, { startsAt: ago(50), signed: true });
  const anna = await app.openAs('anna', `/visits/${visitId}/start`, 'phone');
  await anna.getByRole('link', { name: 'We cannot start: end the visit' }).click();
  await anna.getByRole('button', { name: 'Record how it ended' }).click();
  await anna.getByText('Choose how it ended.').waitFor(); // nothing is chosen before somebody chooses
  await anna.getByLabel('Nobody came').check();
  await anna.getByRole('button', { name: 'Record how it ended' }).click();
  await anna.getByRole('alert').getByText('how many minutes the pair waited').first().waitFor();
  await anna.getByLabel('Minutes waited').fill('30');
  await anna.getByLabel('Calls made').fill('3');
  await anna.getByLabel('What happened').fill('Rang twice, no car in the drive.');
  await anna.getByRole('list', { name: 'What is charged' }).getByText("By the firm's rule, 50% is charged").waitFor();
  await look(anna, 'ending-phone');
  await anna.getByRole('button', { name: 'Record how it ended' }).click();
  await anna.getByText('On record: nobody came.').waitFor();

  const office = await app.openAs('office', `/jobs/${jobId}`);
  const section = office.getByRole('region', { name: 'Ended early' });
  await section.getByText('waited 30 minutes · 3 calls made · Rang twice').waitFor();
  await section.getByText('By the rule, 50% is charged').waitFor();
  await look(office, 'ended-desk');
  await section.getByLabel('Waive it').check();
  await section.getByRole('button', { name: 'Charge nothing' }).click();
  await section.getByText('Say why the firm waives').waitFor();
  await section.getByLabel('Waive it').uncheck();
  await section.getByRole('button', { name: /^Charge\s\$/ }).click();
  await section.getByText('By the rule, 50% is charged').waitFor({ state: 'detached' });
  await section.getByRole('button', { name: 'Book again' }).click();
  await section
    .getByRole('radio', { name: /(Lead|Inspector) first/ })
    .first()
    .check();
  await look(office, 'again-desk');
  await section.getByRole('button', { name: 'Book again' }).last().click();
  await office.getByText('Job', { exact: false }).first().waitFor();
  await office.getByText('· booked ·').waitFor();
});

it('keeps a radon monitor until its test has run, and asks whether it was moved', async () => {
  const { jobId } = await siteJob(app, { startsAt: ago(72 * 60) });
  const anna = await app.openAs('anna', `/jobs/${jobId}/tests`, 'phone');
  const form = anna.getByRole('region', { name: 'Place or draw' });
  const local = (at: Date) =>
    new Date(at.getTime() - 0).toLocaleString('sv-SE', { timeZone: 'America/Chicago' }).slice(0, 16).replace(' ', 'T');
  await form.getByLabel('Serial number').fill('RM-0148');
  await form.getByLabel(/^When/).fill(local(ago(50 * 60)));
  await form.getByLabel('The occupant was told').check();
  await look(anna, 'place-phone');
  await form.getByRole('button', { name: 'It is placed' }).click();
  await anna.getByText('Collect from').waitFor();
  await anna.getByText('Record the next step').click();
  await anna.getByRole('button', { name: 'Record it' }).click();
  await anna.getByText('The test has not run long enough: this device may be collected from').first().waitFor();
  await look(anna, 'too-early-phone');
  await anna.getByLabel('Next').selectOption('given_up');
  await anna.getByLabel('Result as told').fill('The monitor was unplugged; the test is done again.');
  await anna.getByRole('button', { name: 'Record it' }).click();
  await anna.getByText('no result will come').waitFor();
  expect(await anna.getByText('Collect from').count()).toBe(1);
});

it('lets the owner set what is charged, and shows lateness and the way in on a phone', async () => {
  const { visitId } = await siteJob(app, { startsAt: ago(-60), pair: ['cora', 'dan'] });
  const owner = await app.openAs('owner', '/firm');
  const rules = owner.getByRole('region', { name: 'When a visit does not go as booked' });
  await rules.getByLabel('Nobody came, percent of the fee').fill('40');
  await look(owner, 'rules-desk');
  await rules.getByRole('button', { name: 'Save these rules' }).click();
  await owner.getByText('The rules count for what is booked from now on.').waitFor();
  const cora = await app.openAs('cora', `/visits/${visitId}/late`, 'phone');
  await cora.getByText('20 minutes late').waitFor();
  await cora.getByText('Mail to Paula Prior').click();
  await look(cora, 'late-phone');
  await cora.getByRole('button', { name: 'Note it and send 1 mail' }).click();
  await cora.getByText('It is noted, and the clients are told.').waitFor();
  await cora.getByRole('link', { name: 'Back to my day' }).click();
  await cora.getByText('Expected at about').waitFor();
  await cora.getByRole('button', { name: 'Show how to get in' }).click();
  await cora.getByText('Nothing more is noted.').waitFor();
  await look(cora, 'my-day-phone');
});
