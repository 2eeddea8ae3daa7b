// The lead inspector's callback, from the line at home to the failed step with its whole evidence, and on to the visit and the change of the
// procedure. The lead was on that job, so one of the pair is asked and somebody who was not there stands behind the conclusion.
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { nextNumber } from '@backsight/store/numbers';
import { setReserve } from '@backsight/usecases/callbacks/callbackMoney';
import { inputsOf } from '../support/inputs.ts';
import { DEVICE, done, openCallback } from '../support/openCallback.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);
const day = inputsOf('lead inspector');
let address: string;
let lead: Page;
let owner: Page;

beforeAll(async () => {
  const { callbackId } = await openCallback(app, ['lead', 'anna']);
  await app.database.transaction((tx) => nextNumber(tx, 'job'));
  await done(app, setReserve, { id: callbackId, cents: 25_000, words: 'Food' }, 'lead2');
  address = `/callbacks/${callbackId}`;
  [lead, owner] = await Promise.all([app.openAs('lead', '/'), app.openAs('owner', address)]);
  await day.watch(lead.context());
});

/** The whole evidence in the order of the story. */
const STORY = [
  ...['What was said', 'Who was there', 'Recorded, and reported', 'The agreement', 'Supplements and mails', 'Contacts'],
  'Like it before',
];

describe("the lead inspector's callback", () => {
  it('is preceded by what one of the pair saw and did, asked for by the owner and written on a phone', async () => {
    await owner.getByRole('button', { name: 'Ask Anna Inspector what was seen and done' }).click();
    await owner.getByText('waiting for it; asked by Olive Owner').waitFor();
    await owner.getByText('A mark alone creates no privilege').waitFor();
    const anna = await app.openAs('anna', '/my-day', 'phone');
    await anna.getByText('You are asked for your account.').waitFor();
    await anna.getByRole('link', { name: /write what you saw and did/ }).click();
    await anna.getByLabel('What did you see there?').fill('The device in the bath, and boxes before the freezer.');
    await anna.getByLabel('What did you do there, in which order?').fill('I tripped it and reset it.');
    await anna.getByRole('button', { name: 'Give it' }).click();
    await anna.getByText('It stays as you gave it.').waitFor();
  });

  it('leads from home to the failed step, with the whole evidence on the way', async () => {
    const because = 'from an open callback to the failed step with its whole evidence in two minutes';
    await day.task('from home to the failed step', { atMost: 9, because }, async () => {
      await lead.getByRole('link', { name: /^Look into it: Callback 1/ }).click();
      await lead.getByRole('link', { name: 'The whole evidence on one page' }).click();
      await lead.getByRole('heading', { name: 'Who was there' }).waitFor();
      await lead.getByText('in force on that day').first().waitFor();
      const headings = await lead.getByRole('main').getByRole('heading', { level: 2 }).allInnerTexts();
      expect(headings.filter((heading) => STORY.includes(heading))).toEqual(STORY);
      const facts = (await lead.getByRole('link', { name: /^Facts on paper/ }).getAttribute('href'))!;
      const paper = await lead.request.get(new URL(facts, lead.url()).href);
      expect([paper.status(), paper.headers()['content-type']]).toEqual([200, 'application/pdf']);
      await lead.getByRole('link', { name: /^(Back to the callback|Callback 1)$/ }).click();
      await lead.getByRole('button', { name: 'Conclude', exact: true }).click();
      await lead.getByLabel('Cause').selectOption('skipped');
      await lead.getByText('The step was asked and nobody did it.').waitFor();
      expect(await lead.getByLabel('Kind of error at that step').count()).toBe(0);
      await lead.getByRole('button', { name: DEVICE }).click();
      await lead.getByRole('checkbox', { name: 'time pressure' }).check();
      await lead.getByLabel(/^Reasons/).fill('Nobody looked behind it.');
      // What was said, recorded and asked stays in sight beside the last input of the conclusion.
      for (const title of ['What was said', 'Evidence'])
        expect((await lead.getByRole('heading', { name: title, exact: true }).boundingBox())!.y, title).toBeGreaterThan(0);
      await lead.getByRole('button', { name: 'Conclude', exact: true }).click();
      await lead.getByText(`Traced step: ${DEVICE}`).last().waitFor();
    });
    await lead.getByText('Waits for somebody who was not on this job.').waitFor();
    expect(await lead.getByRole('button', { name: 'Confirm it' }).count()).toBe(0);
  });

  it('is confirmed by somebody who was not there', async () => {
    await owner.reload();
    await owner.getByText('boxes before the freezer').waitFor();
    await owner.getByRole('button', { name: 'Confirm it' }).click();
    await owner.getByRole('button', { name: 'I was not there and stand behind it' }).click();
    await owner.getByText(/the newest: Conclusion confirmed/).waitFor();
  });

  it('is followed by a visit of another pair', async () => {
    await lead.reload();
    await lead.getByText(/^Next:/).waitFor();
    await day.task('the visit booked', { atMost: 6, because: 'which remedy, and which start' }, async () => {
      await lead.getByRole('button', { name: 'Propose a remedy' }).click();
      await lead.getByLabel('Remedy').selectOption('revisit');
      await lead.getByRole('button', { name: 'Propose', exact: true }).click();
      await lead.getByRole('button', { name: 'Book the visit' }).click();
      await lead.getByText('did the inspection: they do not come back by themselves').waitFor();
      await lead.getByRole('radio').first().check();
      await lead.getByRole('button', { name: 'Book this start' }).click();
      await lead
        .getByRole('link', { name: /^Job \d+$/ })
        .first()
        .waitFor();
    });
    await expectAccessible(lead);
  });

  it('changes the procedure, with the way from the change back to the callback', async () => {
    const because = 'what, why and until when are the only words that nobody else can give';
    await day.task('from the callback to a draft of the procedure', { atMost: 7, because }, async () => {
      await lead.getByRole('button', { name: 'Decide on one' }).click();
      await lead.getByLabel('In one line').fill('Count live receptacles before and after the trip');
      await lead.getByLabel('Why').fill('A reset that clicks proves no power downstream');
      await lead.getByLabel('Due on').fill('2099-06-30');
      await lead.getByRole('button', { name: 'Decide', exact: true }).click();
      await lead.getByRole('button', { name: 'Draft the revision' }).click();
      await lead.getByLabel('Procedure to change').waitFor();
      expect(await lead.getByLabel('Procedure to change').locator('option:checked').textContent()).toMatch(/Electrical/);
      await lead.getByRole('button', { name: 'Begin the draft' }).click();
      await lead.waitForURL(/\/procedures\/draft\//);
    });
    await lead.goto(lead.url().replace('/draft/', '/revision/'));
    await lead.getByRole('heading', { name: 'What it comes from' }).waitFor();
    await lead.getByRole('link', { name: 'callback 1' }).first().waitFor();
    await lead.waitForLoadState('networkidle'); // nothing moves beneath the press any more
    await lead.getByRole('link', { name: /Corrective action \d+: Count live receptacles/ }).click();
    await lead.getByText('Nothing is in force yet, so there is no "after".').waitFor();
    await lead.getByRole('button', { name: 'Look for the same elsewhere' }).click();
    await lead.getByText('No other job shows this gap.').waitFor();
    await lead.getByRole('button', { name: 'Done, or dropped' }).click();
    await lead.getByLabel('What became of it').selectOption('dropped');
    await lead.getByRole('button', { name: 'Drop it' }).click();
    await lead.getByText('Say why nothing more is done.').first().waitFor();
    await expectAccessible(lead);
  });
});
