// The story of one callback from the first call to the figures: a freezer thaws nine days after the inspection, and the firm learns from it.
import { describe, expect, it } from 'vitest';
import { CAST, type CastName } from '../support/cast.ts';
import { book, isOffered, pay, sign, type Booked } from './story/booking.ts';
import { balance, conclude, DEVICE, makeGood, takeCall } from './story/callback.ts';
import { acknowledge, approve, draftFromCallback, inspectors, NEW_STEPS, writeSteps } from './story/change.ts';
import { readFigures, workNewSteps } from './story/figures.ts';
import { endAndSeal, goTo, openWithDevice, pairOf, recordOf, recordRest } from './story/siteRecord.ts';
import { stage } from './story/stage.ts';

const DAY = 86_400_000;
const PARTNER_CHECK = 'Signs of water on ceilings and around windows';
const HOUSE_FACTS = [
  [/^Stories/, '2'],
  [/^Bathrooms/, '2'],
  [/^attached garage$/, 'yes'],
] as const;

// The acts of one are told in order: the office at its desk, the pair and the clients on their phones.
describe('the thawed freezer', () => {
  const on = stage();
  let first: Booked;
  let recordId: string;
  let callback: string;
  let second: Booked;
  let revision: string;
  let acknowledgeBy: Date;
  let late: CastName;

  it('is booked by keyboard, signed through the private link and paid', async () => {
    first = await book(on, {
      caller: 'Paula Prior',
      street: '14 Alder Road',
      town: 'Birch',
      pair: ['Anna Inspector', 'Ben Inspector'],
      facts: HOUSE_FACTS,
    });
    await sign(on, first, 'Paula Prior');
    await pay(on, first);
  });

  it('is inspected by the pair: the device is tripped and reset, and nothing asks for power downstream', async () => {
    await on.travel(first.startsAt);
    const pair = pairOf(first);
    recordId = await openWithDevice(on, first);
    const page = await on.as(pair.first, `/records/${recordId}`);
    const partner = await on.as(pair.second, `/records/${recordId}`);
    await recordRest(page, recordId, { except: ['ground-fault-trip-reset', 'water-signs-inside', 'ask-before-power'] });
    await recordRest(partner, recordId, { only: 'partner_check', except: ['water-signs-inside'] });

    await goTo(page, recordId, 'What must not lose power');
    await page.getByLabel('Note', { exact: true }).fill('Chest freezer in the attached garage.');
    await page.getByRole('button', { name: 'Done', exact: true }).click();
    const keys = async () => (await recordOf(page, recordId)).entries.map(({ stepKey }) => stepKey);
    await expect.poll(keys).toContain('ask-before-power');
    await goTo(page, recordId, DEVICE);
    await on.look(page, 'device-step');
    await page.getByRole('radio', { name: 'trips and resets' }).check();
    await page.getByRole('button', { name: 'Done', exact: true }).click();
    await expect.poll(keys).toContain('ground-fault-trip-reset');

    const before = (await keys()).length;
    await goTo(page, recordId, PARTNER_CHECK);
    await page.getByRole('radio').first().check();
    await page.getByText('Add a note').click();
    await page.getByLabel('Note (not needed)').fill('Stain above the stairs, dry today.');
    await page.getByRole('button', { name: 'Done', exact: true }).click();
    await page.getByText('has still to look').waitFor();
    await expect.poll(async () => (await keys()).length).toBeGreaterThan(before); // it stands on the phone first
    await goTo(partner, recordId, PARTNER_CHECK);
    await partner.getByText('has recorded already').waitFor();
    expect(await partner.getByText('Stain above the stairs').count()).toBe(0);
    expect(JSON.stringify(await recordOf(partner, recordId))).not.toContain('Stain above the stairs');
    await on.look(partner, 'partner-check-withheld');
    await partner.getByRole('radio').first().check();
    await partner.getByRole('button', { name: 'Done', exact: true }).click();
    await partner.getByText('Stain above the stairs').waitFor();
    await on.look(partner, 'partner-check-compared');
    await endAndSeal(on, pair, recordId);
  });

  it('is reported by the lead and handed over', async () => {
    const page = await on.as('lead', `/jobs/${first.jobId}/report`);
    await page.getByText('Draft the report', { exact: true }).click();
    await page.getByRole('button', { name: 'Draft this version' }).click();
    await page.getByRole('heading', { name: 'Version 1' }).waitFor();
    await page.getByRole('button', { name: 'Hand it over' }).click();
    await page.getByText(/sent by mail/).waitFor();
    await on.look(page, 'report');
  });

  it('thaws nine days later: the office takes the call, the lead concludes with the evidence', async () => {
    await on.travel(new Date(first.startsAt.getTime() + 9 * DAY));
    callback = await takeCall(on);
    await conclude(on, callback);
  });

  it('is made good with money that was set aside, once the reason for it is on file', async () => {
    await makeGood(on, callback);
    await balance(on);
  });

  it('changes the procedure: drafted from the callback, compared, approved by a second person; a visit booked earlier stays', async () => {
    second = await book(on, { caller: 'Nora Next', street: '3 Pier Lane', town: 'Birch', from: '2026-06-08', facts: [] });
    const pair = pairOf(second);
    late = pair.second === 'lead' ? pair.first : pair.second;
    revision = await draftFromCallback(on, callback);
    await writeSteps(on, revision);
    acknowledgeBy = await approve(on, revision);
    const page = await on.as('office', `/jobs/${second.jobId}`);
    await page
      .getByRole('region', { name: 'Visits' })
      .getByText(new RegExp(`${CAST[late].name} \\((first|second)\\)`))
      .waitFor();
  });

  it('is read by everybody but one, who is not offered any more until he has', async () => {
    for (const [at, who] of inspectors.filter((one) => one !== late).entries()) await acknowledge(on, who, revision, at === 0);
    await on.travel(new Date(acknowledgeBy.getTime() + DAY));
    const page = await on.as('office', '/book');
    await page.getByLabel('Town').selectOption('Birchmere');
    await page.getByRole('radio').first().waitFor();
    await page.getByText(`${CAST[late].name} has not acknowledged`).waitFor();
    await on.look(page, 'not-offered');
    expect(await isOffered(page, late)).toBe(false);
    await acknowledge(on, late, revision);
    expect(await isOffered(page, late)).toBe(true);
    expect(await page.getByText('has not acknowledged').count()).toBe(0);
  });

  it('guides the next house: count, trip and reset, count again', async () => {
    await sign(on, second, 'Nora Next');
    await pay(on, second);
    await on.travel(second.startsAt);
    const pair = pairOf(second);
    const record = await openWithDevice(on, second);
    const page = await on.as(pair.first, `/records/${record}`);
    await recordRest(page, record, { except: ['live-receptacles-before', 'ground-fault-trip-reset', 'live-receptacles-after'] });
    await recordRest(await on.as(pair.second, `/records/${record}`), record, { only: 'partner_check' });
    await workNewSteps(on, pair.first, record);
    await endAndSeal(on, pair, record);
    expect(
      (await recordOf(page, record)).steps.filter(({ title }) => NEW_STEPS.includes(title)).map(({ revisionNumber }) => revisionNumber),
    ).toEqual([2, 2, 2]);
  });

  it('ends with honest figures and a closed callback', async () => {
    await readFigures(on);
    const page = await on.as('owner', callback);
    await page.getByRole('main').getByRole('button', { name: 'Close', exact: true }).click();
    await page.getByRole('main').getByRole('button', { name: 'Close', exact: true }).click();
    await page.getByRole('button', { name: 'Open again' }).waitFor();
    await on.look(page, 'callback-closed');
  });
});
