// A callback in the browser: taken in by the office, concluded by the lead, approved and cleared by the owner, paid, closed.
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { openRecord } from '@backsight/usecases/sitework/openRecord';
import { launch } from '../support/browser.ts';
import { as, withCast, type CastName } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { withSite } from '../support/site.ts';
import { siteJob } from '../support/siteJob.ts';
import { withStarter } from '../support/starter.ts';

const service = testService();
withCast(service);
withStarter(service);
const site = withSite(service);
let browser: Browser;
const pictures = process.env.SCREENS;

beforeAll(async () => {
  const job = await siteJob(service, { startsAt: new Date(service.clock.now.getTime() - 1_800_000) });
  const items = [{ id: randomUUID(), kind: 'ground_fault_device' as const, label: 'Upstairs bath' }];
  const opened = await service.runner.run(
    openRecord,
    { id: randomUUID(), visitId: job.visitId, items, systems: [], acknowledged: [] },
    { actor: as('anna') },
  );
  expect(opened.ok, JSON.stringify(opened)).toBe(true);
  browser = await launch();
});
afterAll(() => browser?.close());

async function openAs(who: CastName, width = 1280): Promise<Page> {
  const page = await (await browser.newContext({ viewport: { width, height: 900 } })).newPage();
  await site.signIn(page, who);
  return page;
}
const shot = async (page: Page, name: string): Promise<void> =>
  void (pictures && (await page.screenshot({ path: `${pictures}/${name}.png`, fullPage: true })));

/** An estimate, what speaks against it, the release, the offer, and the notice to the insurer. */
async function putRight(owner: Page): Promise<void> {
  await owner.getByRole('button', { name: 'Record an estimate' }).click();
  await owner.getByLabel('Contractor').fill('Plover Electric');
  await owner.getByLabel('Amount').fill('720.00');
  await owner.getByLabel('What would be done').fill('Feed the garage from its own circuit.');
  await owner.getByRole('button', { name: 'Record it' }).click();
  await owner.getByText('Only one contractor has given an estimate').waitFor();
  await owner.getByRole('button', { name: 'Propose a remedy' }).click();
  await owner.getByLabel('Remedy').selectOption('independent_contractor');
  await owner.getByLabel('By which estimate').selectOption({ label: 'Plover Electric, $720.00' });
  await owner.getByText('$120.00 were agreed before; with this it is $840.00.').waitFor();
  await owner.getByText('A rule of the state speaks to this').waitFor();
  await shot(owner, 'propose');
  await owner.getByLabel('Reasons').fill('The only one who can come this week.');
  await owner.getByRole('button', { name: 'Propose' }).click();
  await owner.getByRole('button', { name: 'Send the settlement release' }).click();
  await owner.getByText('Settlement release (an example that no attorney has reviewed): not signed by everybody yet.').waitFor();
  await owner.getByRole('button', { name: 'Offer it by mail' }).click();
  await owner.getByText('Wis. Stat. 904.08, from memory').waitFor();
  await shot(owner, 'offer');
  await owner.getByRole('button', { name: 'Go back' }).click();
  await owner.getByRole('button', { name: 'Refuse' }).click();
  await owner.getByRole('button', { name: 'Record a notice to the insurer' }).click();
  await owner.getByLabel('What was reported').fill('The complaint, and that it is settled for little.');
  await owner.getByRole('button', { name: 'Record it' }).click();
  await owner.getByText('The complaint, and that it is settled for little.').waitFor();
  await owner.getByText('$120.00 used of $2,500.00').waitFor();
}

/** The lists about callbacks fit a phone. */
async function lookAtLists(owner: Page): Promise<void> {
  for (const [path, heading] of [
    ['/callbacks?which=all', 'Callbacks'],
    ['/liabilities', 'Money of callbacks'],
    ['/liabilities/steps', 'Every step'],
    ['/corrective-actions', 'Corrective actions'],
  ] as const) {
    await owner.goto(`${site.url}${path}`);
    await owner.getByRole('heading', { name: heading }).first().waitFor();
    await owner.waitForLoadState('networkidle');
    await shot(owner, `${heading.replaceAll(' ', '-')}`);
    expect(await owner.evaluate(() => document.documentElement.scrollWidth - window.innerWidth), path).toBeLessThanOrEqual(0);
  }
}

describe('a callback', () => {
  it('goes from the call to the payment', async () => {
    const office = await openAs('office');
    await office.goto(`${site.url}/callbacks/new`);
    await office.getByLabel('Which job is it about?').fill('Alder');
    await office.getByRole('button', { name: /^Job \d+$/ }).click();
    await shot(office, 'intake');
    await office.getByLabel('Where in the house').fill('garage');
    await office.getByLabel('What they say, in their words').fill('The freezer in the garage thawed: its receptacle is dead.');
    await office.getByRole('button', { name: 'Take it in' }).click();
    await office.getByRole('link', { name: 'Open it' }).click();
    await office.getByRole('button', { name: 'Acknowledge' }).click();
    await office.getByRole('button', { name: 'Acknowledge' }).click();
    await office.getByText('Decide by').or(office.getByText('Sort by')).first().waitFor();
    expect(await office.getByRole('main').getByRole('heading', { name: 'Money' }).count()).toBe(0);
    const address = office.url();

    const owner = await openAs('owner', 390);
    await owner.goto(address);
    await owner.getByRole('button', { name: 'Conclude', exact: true }).click();
    await owner.getByRole('button', { name: 'Ground-fault device: trip and reset' }).click();
    await owner.getByRole('button', { name: 'Conclude', exact: true }).click();
    // Concluded, it is one line on a phone.
    await owner.getByText('Traced step: Ground-fault device: trip and reset').last().waitFor();
    await owner.getByRole('button', { name: 'Propose a remedy' }).click();
    await owner.getByLabel('Amount').fill('120.00');
    await owner.getByLabel('Who is paid').fill('Paula Prior');
    await owner.getByRole('button', { name: 'Propose' }).click();
    await owner.getByRole('button', { name: 'Record the payment' }).click();
    await owner.getByRole('button', { name: 'Record the payment' }).click();
    await owner.getByText('No offer, payment or refund leaves before').first().waitFor();
    await owner.getByRole('button', { name: 'Record consent or reason' }).click();
    await owner.getByLabel('What is on file').selectOption('owner_reason');
    await owner.getByLabel(/Who said so/).fill('Far below the deductible');
    await owner.getByRole('button', { name: 'Record it' }).click();
    await owner.getByText('Far below the deductible (Olive Owner').waitFor();
    await owner.getByRole('button', { name: 'Record the payment' }).click();
    await owner.getByRole('button', { name: 'Record the payment' }).click();
    await owner.getByText('bank -$120.00').waitFor();
    await putRight(owner);
    await shot(owner, 'callback');
    await owner.getByRole('main').getByRole('button', { name: 'Close', exact: true }).click();
    await owner.getByRole('main').getByRole('button', { name: 'Close', exact: true }).click();
    await owner.getByRole('button', { name: 'Open again' }).waitFor();
    await owner.goto(`${site.url}/callbacks?which=all&by=step`);
    const group = owner.getByRole('link', { name: /Ground-fault device: trip and reset$/ });
    await group.click();
    await owner.getByText('Traced to the step').waitFor();
    expect(owner.url()).toContain('step=ground-fault-trip-reset');
    expect(await owner.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
    await owner.goBack();
    await group.waitFor();
    await lookAtLists(owner);
  });
});
