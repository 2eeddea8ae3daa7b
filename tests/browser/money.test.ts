// A client signs on a phone, and the office records the payment: the pages of agreements, money and mail in a real browser.
import { it } from 'vitest';
import { issueAgreementOfJob } from '@backsight/usecases/agreements/issue';
import { issueInvoiceOfJob } from '@backsight/usecases/fees/issue';
import { as } from '../support/cast.ts';
import { wordOf } from '../support/clientLink.ts';
import { paidJob } from '../support/paidJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);

async function job() {
  const { jobId } = await paidJob(app, { startsAt: new Date(app.clock.now.getTime() + Math.ceil(Math.random() * 300) * 86_400_000) });
  await app.runner.run(issueAgreementOfJob, { jobId, publicUrl: 'http://backsight.example' }, { actor: as('office') });
  const invoice = await app.runner.run(issueInvoiceOfJob, { jobId }, { actor: as('office') });
  const rows = await app.database.read.rows<{ body: string }>(`SELECT body FROM outgoing_mail WHERE about_id = $1::uuid ORDER BY id DESC`, [
    jobId,
  ]);
  return { jobId, invoiceId: invoice.ok ? invoice.value.invoiceId : '', link: /\/client\/[\w-]{43}/.exec(rows[0]!.body)![0] };
}

it('a client reads and signs on the phone', async () => {
  const { link, jobId } = await job();
  const page = await app.open(link, 'phone');
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Sign the agreement' }).click();
  await page.getByRole('alert').getByText('have read').waitFor();
  await expectAccessible(page);
  await page.getByLabel('I have read').check();
  await page.getByLabel('I agree to sign').check();
  await page.getByLabel('The word in the PDF').fill(await wordOf(app.database, jobId));
  await page.getByLabel('Your full name').fill('Paula Prior');
  await page.keyboard.press('Enter');
  await page.getByText('Signed by Paula Prior').waitFor();
  await expectAccessible(page);
});

it('the office records a payment and takes it back', async () => {
  const { invoiceId, jobId } = await job();
  const page = await app.openAs('owner', `/invoices/${invoiceId}`);
  await page.getByRole('button', { name: 'Record a payment' }).click();
  await page.getByLabel('Amount').fill('600');
  await page.getByLabel('Number of the check').fill('2214');
  await page.getByRole('button', { name: 'Record the payment' }).click();
  await page.getByText('Only $575.00 is open').first().waitFor();
  await page.getByLabel('Amount').fill('$575.00');
  await page.getByRole('button', { name: 'Record the payment' }).click();
  await page.getByText('paid in full').first().waitFor();
  await page.getByRole('button', { name: 'Take back' }).click();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('the check came back').first().waitFor();
  for (const address of ['/receivables', '/ledger', '/mail', '/agreement-texts', `/jobs/${jobId}/agreement`, `/invoices/${invoiceId}`]) {
    await page.goto(new URL(address, page.url()).href);
    await page.locator('h1').waitFor();
    await page.waitForLoadState('networkidle');
    await expectAccessible(page);
  }
});
