// Opinions in the browser: one of the pair is asked and writes on the phone, the other concludes and somebody who was not there stands behind it, beside the whole evidence.
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { acknowledgeCallback } from '@backsight/usecases/callbacks/moveCallback';
import { receiveCallback } from '@backsight/usecases/callbacks/receiveCallback';
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
const id = randomUUID();
let browser: Browser;

beforeAll(async () => {
  const job = await siteJob(service, { startsAt: new Date(service.clock.now.getTime() - 1_800_000), pair: ['lead', 'anna'] });
  const items = [{ id: randomUUID(), kind: 'ground_fault_device' as const, label: 'Upstairs bath' }];
  const done = [
    await service.runner.run(
      openRecord,
      { id: randomUUID(), visitId: job.visitId, items, systems: [], acknowledged: [] },
      { actor: as('anna') },
    ),
    await service.runner.run(
      receiveCallback,
      {
        ...{ id, jobId: job.jobId, partyId: job.clientId, speaker: 'client', kind: 'missed', safety: false, system: 'electrical' },
        ...{ place: 'garage', remedySought: '', words: 'The freezer in the garage thawed: its receptacle is dead.' },
      },
      { actor: as('office') },
    ),
    await service.runner.run(acknowledgeCallback, { id }, { actor: as('office') }),
  ];
  for (const outcome of done) expect(outcome.ok, JSON.stringify(outcome)).toBe(true);
  browser = await launch();
});
afterAll(() => browser?.close());

async function openAs(who: CastName, path: string, width = 1280): Promise<Page> {
  const page = await (await browser.newContext({ viewport: { width, height: 900 } })).newPage();
  await site.signIn(page, who);
  await page.goto(site.url + path);
  return page;
}
const fits = async (page: Page): Promise<boolean> => page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth);

describe('opinions of a callback', () => {
  it('are asked for, given, concluded and confirmed beside the whole evidence', async () => {
    const owner = await openAs('owner', `/callbacks/${id}`);
    await owner.getByRole('button', { name: 'Ask Anna Inspector what was seen and done' }).click();
    await owner.getByText('waiting for it; asked by Olive Owner').waitFor();
    await owner.getByText('A mark alone creates no privilege').waitFor();

    const anna = await openAs('anna', '/my-day', 390);
    await anna.getByText('You are asked for your account.').waitFor();
    await anna.getByRole('link', { name: /write what you saw and did/ }).click();
    await anna.getByLabel('What did you see there?').fill('The device in the bath, and boxes before the freezer.');
    await anna.getByLabel('What did you do there, in which order?').fill('I tripped it and reset it.');
    expect(await fits(anna)).toBe(true);
    await anna.getByRole('button', { name: 'Give it' }).click();
    await anna.getByText('It stays as you gave it.').waitFor();

    const lead = await openAs('lead', `/callbacks/${id}`);
    await lead.getByRole('button', { name: 'Conclude', exact: true }).click();
    await lead.getByLabel('Cause').selectOption('skipped');
    await lead.getByText('The step was asked and nobody did it.').waitFor();
    expect(await lead.getByLabel('Kind of error at that step').count()).toBe(0);
    await lead.getByRole('button', { name: 'Ground-fault device: trip and reset' }).click();
    await lead.getByRole('checkbox', { name: 'time pressure' }).check();
    await lead.getByLabel(/^Reasons/).fill('Nobody looked behind it.');
    // What was said, recorded and asked stays in sight beside the last input of the conclusion.
    for (const title of ['What was said', 'Evidence'])
      expect((await lead.getByRole('heading', { name: title, exact: true }).boundingBox())!.y, title).toBeGreaterThan(0);
    await lead.getByRole('button', { name: 'Conclude', exact: true }).click();
    await lead.getByText('Waits for somebody who was not on this job.').waitFor();
    expect(await lead.getByRole('button', { name: 'Confirm it' }).count()).toBe(0);

    await owner.goto(`${site.url}/callbacks/${id}`);
    await owner.getByText('boxes before the freezer').waitFor();
    await owner.getByRole('link', { name: 'The whole evidence on one page' }).click();
    await owner.getByRole('heading', { name: 'The pair on that day' }).waitFor();
    const headings = await owner.getByRole('main').getByRole('heading', { level: 2 }).allInnerTexts();
    const story = [
      'What was said',
      'The pair on that day',
      'Recorded, and reported',
      'The agreement',
      'Supplements and mails',
      'Contacts',
      'Like it before',
    ];
    expect(headings.filter((heading) => story.includes(heading))).toEqual(story);
    await owner.getByText('in force on that day').first().waitFor();
    expect(await fits(owner)).toBe(true);
    const paper = await owner.request.get(site.url + (await owner.getByRole('link', { name: /^Facts on paper/ }).getAttribute('href'))!);
    expect([paper.status(), paper.headers()['content-type']]).toEqual([200, 'application/pdf']);
    await owner.getByRole('button', { name: 'Confirm it' }).click();
    await owner.getByRole('button', { name: 'I was not there and stand behind it' }).click();
    await owner.getByText('confirmed by Olive Owner').waitFor();
  });
});
