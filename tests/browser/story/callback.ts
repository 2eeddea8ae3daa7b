// Acts around the callback in the story: the call, the evidence, the conclusion, the money.
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Stage } from './stage.ts';

export const DEVICE = 'Ground-fault device: trip and reset';

/** The office takes the call and speaks with the client. Returns the address of the callback. */
export async function takeCall(stage: Stage): Promise<string> {
  const page = await stage.as('office', '/callbacks/new');
  await page.getByLabel('Which job is it about?').fill('Alder');
  await page.getByRole('button', { name: /^Job \d+$/ }).click();
  await page.getByLabel('Where in the house').fill('attached garage');
  await page.getByLabel('Noticed on').fill('2026-05-21');
  await page
    .getByLabel('What they say, in their words')
    .fill('The freezer in the garage thawed, its receptacle is dead. The food is spoiled.');
  await stage.look(page, 'intake');
  await page.getByRole('button', { name: 'Take it in' }).click();
  await page.getByRole('link', { name: 'Open it' }).click();
  await page.getByRole('button', { name: 'Acknowledge', exact: true }).click();
  await page.getByRole('button', { name: 'Acknowledge', exact: true }).click();
  await page.getByText('Decide by').or(page.getByText('Sort by')).first().waitFor();
  await stage.look(page, 'callback-office');
  expect(
    await page
      .getByRole('main')
      .getByRole('heading', { name: /^(Money|Evidence|Conclusion)$/ })
      .count(),
    'the office reads facts, not opinions',
  ).toBe(0);
  return new URL(page.url()).pathname;
}

/** The lead reads the evidence: the trip and the reset are there, and no look at power downstream; concludes with the nearest step. */
export async function conclude(stage: Stage, callback: string): Promise<void> {
  const page = await stage.as('lead', callback);
  const step = page.getByRole('listitem').filter({ hasText: DEVICE }).first();
  await step.getByText('trips and resets').waitFor();
  expect(await step.textContent()).toContain('Upstairs bath');
  expect(await page.getByRole('region', { name: 'Evidence' }).or(page.locator('main')).first().textContent()).not.toMatch(
    /live again|receptacles live/,
  );
  await page
    .getByText(/^Revision \d+ asked/)
    .first()
    .waitFor();
  await stage.look(page, 'evidence');
  await page.getByRole('button', { name: 'Conclude', exact: true }).click();
  await page.getByLabel('Cause').selectOption('not_in_procedure');
  await page.getByRole('button', { name: DEVICE }).click();
  await page.getByLabel(/^Reasons/).fill('The device was reset; nobody was asked to see whether what it feeds had power again.');
  await page.getByRole('button', { name: 'Conclude', exact: true }).click();
  await page.getByText(`Traced step: ${DEVICE}`).filter({ visible: true }).first().waitFor();
}

const setAside = async (page: Page, amount: string, why: string): Promise<void> => {
  await page.getByRole('button', { name: 'Change what is set aside' }).click();
  await page.getByLabel(/^New amount set aside/).fill(amount);
  await page.getByLabel('Why').fill(why);
  await page.getByRole('button', { name: 'Set aside', exact: true }).click();
  await page.getByRole('button', { name: 'Change what is set aside' }).waitFor();
};

/** Reserve, payment within the lead's limit, the owner's reason, the payment, the release. */
export async function makeGood(stage: Stage, callback: string): Promise<void> {
  const owner = await stage.as('owner', callback);
  await setAside(owner, '250.00', 'Freezer food and a visit.');
  await owner.getByText('$250.00').first().waitFor();
  const lead = await stage.as('lead', callback);
  await lead.getByRole('button', { name: 'Propose a remedy' }).click();
  await lead.getByLabel('Amount').fill('185.40');
  await lead.getByLabel('Who is paid').fill('Paula Prior');
  await lead.getByRole('button', { name: 'Propose', exact: true }).click();
  await lead.getByRole('button', { name: 'Record the payment' }).click();
  await lead.getByRole('button', { name: 'Record the payment' }).click();
  await lead.getByText('No offer, payment or refund leaves before').waitFor();
  await stage.look(lead, 'payment-blocked');
  await owner.reload();
  await owner.getByRole('button', { name: 'Record consent or reason' }).click();
  await owner.getByLabel('What is on file').selectOption('owner_reason');
  await owner.getByLabel(/Who said so/).fill('Far below the deductible; told the agent of the insurer.');
  await owner.getByRole('button', { name: 'Record it' }).click();
  await owner.getByText('Far below the deductible').waitFor();
  await lead.reload();
  await lead.getByRole('button', { name: 'Record the payment' }).click();
  await lead.getByRole('button', { name: 'Record the payment' }).click();
  await lead.getByText('Bank and cash -$185.40').waitFor();
  await owner.reload();
  await setAside(owner, '0', 'Made good; nothing more is expected.');
  await owner.getByText('$0.00').first().waitFor();
  await stage.look(owner, 'callback-owner');
}

/** The owner's ledger: both sides have the same sum. */
export async function balance(stage: Stage): Promise<void> {
  const page = await stage.as('owner', '/ledger');
  const sum = page.getByRole('table', { name: 'Trial balance' }).getByRole('row').filter({ hasText: 'Together' });
  await sum.waitFor();
  const [debit, credit] = (await sum.textContent())!.match(/\$[\d,]+\.\d\d/g)!;
  expect(debit).toBe(credit);
  await stage.look(page, 'ledger');
}
