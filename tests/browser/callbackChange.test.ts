// From a callback to what changes, in the browser: the visit is booked, the draft begun, the way back shown; every screen looked at by axe.
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { acknowledgeCallback } from '@backsight/usecases/callbacks/moveCallback';
import { concludeCallback } from '@backsight/usecases/callbacks/concludeCallback';
import { receiveCallback } from '@backsight/usecases/callbacks/receiveCallback';
import { setReserve } from '@backsight/usecases/callbacks/callbackMoney';
import { openRecord } from '@backsight/usecases/sitework/openRecord';
import type { Act } from '@backsight/usecases/run';
import { nextNumber } from '@backsight/store/numbers';
import { violationsOn, WCAG_22_AA } from '../support/axe.ts';
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
const callbackId = randomUUID();

async function done<In, Out>(act: Act<In, Out>, input: In, who: CastName): Promise<void> {
  const outcome = await service.runner.run(act, input, { actor: as(who) });
  expect(outcome.ok, JSON.stringify(outcome)).toBe(true);
}

beforeAll(async () => {
  const { jobId, visitId, clientId } = await siteJob(service, { startsAt: new Date(service.clock.now.getTime() - 1_800_000) });
  await service.database.transaction((tx) => nextNumber(tx, 'job'));
  await done(
    openRecord,
    {
      id: randomUUID(),
      visitId,
      items: [{ id: randomUUID(), kind: 'ground_fault_device', label: 'Upstairs bath' }],
      systems: [],
      acknowledged: [],
    },
    'anna',
  );
  const intake = {
    jobId,
    partyId: clientId,
    speaker: 'client',
    safety: false,
    system: 'electrical',
    place: 'garage',
    remedySought: 'the thawed food',
    words: 'The freezer in the garage thawed: its receptacle is dead.',
  } as const;
  await done(receiveCallback, { ...intake, id: callbackId, kind: 'missed' }, 'office');
  await done(receiveCallback, { ...intake, id: randomUUID(), kind: 'question' }, 'office');
  await done(receiveCallback, { ...intake, id: randomUUID(), kind: 'damage_or_injury', safety: true }, 'office');
  await done(acknowledgeCallback, { id: callbackId }, 'office');
  await done(
    concludeCallback,
    { id: callbackId, conclusionId: randomUUID(), cause: 'not_in_procedure', stepKey: 'ground-fault-trip-reset' },
    'lead',
  );
  await done(setReserve, { id: callbackId, cents: 25_000, words: 'Food' }, 'lead');
  browser = await launch();
});
afterAll(() => browser?.close());

async function openAs(who: CastName, width = 1280): Promise<Page> {
  const page = await (await browser.newContext({ viewport: { width, height: 900 } })).newPage();
  await site.signIn(page, who);
  return page;
}

/** No serious violation, nothing wider than the screen; a picture when asked for. */
async function look(page: Page, name: string): Promise<void> {
  const violations = await violationsOn(page, { tags: WCAG_22_AA });
  if (pictures) await page.screenshot({ path: `${pictures}/${name}.png`, fullPage: true });
  expect(
    violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`),
    name,
  ).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth), name).toBeLessThanOrEqual(0);
}

/** From the revision to the page of its corrective action: nothing in force, nothing elsewhere, and no dropping without why. */
async function readAction(lead: Page): Promise<void> {
  await lead.getByRole('link', { name: /Corrective action \d+: Count live receptacles/ }).click();
  await lead.getByText('Nothing is in force yet, so there is no "after".').waitFor();
  await lead.getByRole('button', { name: 'Look for the same elsewhere' }).click();
  await lead.getByText('No other job shows this gap.').waitFor();
  await lead.getByRole('button', { name: 'Done, or dropped' }).click();
  await lead.getByLabel('What became of it').selectOption('dropped');
  await lead.getByRole('button', { name: 'Drop it' }).click();
  await lead.getByText('Say why nothing more is done.').first().waitFor();
  await look(lead, 'action');
}

describe('what follows from a callback', () => {
  it('is a visit by another pair, and a change of the procedure', async () => {
    const lead = await openAs('lead');
    await lead.goto(`${site.url}/callbacks/${callbackId}`);
    await lead.getByRole('button', { name: 'Propose a remedy' }).click();
    await lead.getByLabel('Remedy').selectOption('revisit');
    await lead.getByRole('button', { name: 'Propose', exact: true }).click();
    await lead.getByRole('button', { name: 'Book the visit' }).click();
    await lead.getByText('did the inspection: they do not come back by themselves').waitFor();
    await lead.getByRole('radio').first().check();
    await look(lead, 'visit');
    await lead.getByRole('button', { name: 'Book this start' }).click();
    await lead
      .getByRole('link', { name: /^Job \d+$/ })
      .first()
      .waitFor();

    await lead.getByRole('button', { name: 'Decide on one' }).click();
    await lead.getByLabel('In one line').fill('Count live receptacles before and after the trip');
    await lead.getByLabel('Why').fill('A reset that clicks proves no power downstream');
    await lead.getByLabel('Due on').fill('2099-06-30');
    await lead.getByRole('button', { name: 'Decide', exact: true }).click();
    await lead.getByRole('button', { name: 'Draft the revision' }).click();
    await lead.getByLabel('Procedure to change').waitFor();
    expect(await lead.getByLabel('Procedure to change').locator('option:checked').textContent()).toMatch(/Electrical/);
    await look(lead, 'callback-page');
    await lead.getByRole('button', { name: 'Begin the draft' }).click();
    await lead.waitForURL(/\/procedures\/draft\//);
    await lead.goto(lead.url().replace('/draft/', '/revision/'));
    await lead.getByRole('heading', { name: 'What it comes from' }).waitFor();
    await lead.getByRole('link', { name: 'callback 1' }).first().waitFor();
    await look(lead, 'revision');
    await readAction(lead);

    const owner = await openAs('owner', 390);
    for (const [path, heading] of [
      ['/callbacks', 'Callbacks'],
      ['/liabilities', 'Money of callbacks'],
      ['/liabilities/steps', 'Every step'],
      ['/corrective-actions', 'Corrective actions'],
    ] as const) {
      await owner.goto(`${site.url}${path}`);
      await owner.getByRole('heading', { name: heading }).first().waitFor();
      await owner.getByRole('table').first().waitFor();
      await look(owner, `${heading.replaceAll(' ', '-')}`);
    }
    await owner.goto(`${site.url}/callbacks/new`);
    await owner.getByLabel('Which job is it about?').fill('Alder');
    await owner
      .getByRole('button', { name: /^Job \d+$/ })
      .first()
      .click();
    await owner.getByLabel('Somebody may be in danger').check();
    await owner.getByText('call whoever is on call: 920-555-0101').waitFor();
    await owner.getByLabel('Kind').selectOption('demand_or_suit');
    await owner.getByLabel('Which person').selectOption('outside');
    expect(await owner.getByLabel('Only an owner sees this file').isChecked()).toBe(true);
    await look(owner, 'intake');
  });
});
