// The story of one callback from the first call to the figures: a freezer thaws nine days after the inspection, and the firm learns from it.
import { describe, expect, it } from 'vitest';
import { book, pay, sign, type Booked } from './story/booking.ts';
import { endAndSeal, goTo, openWithDevice, pairOf, recordOf, recordRest } from './story/siteRecord.ts';
import { stage } from './story/stage.ts';

const DEVICE = 'Ground-fault device: trip and reset';
const PARTNER_CHECK = 'Signs of water on ceilings and around windows';
const HOUSE_FACTS = [[/^Stories/, '2'], [/^Bathrooms/, '2'], [/^attached garage$/, 'yes']] as const;

describe.each([1280, 390])('the thawed freezer, at %i px', (width) => {
  const on = stage(width);
  let first: Booked;
  let recordId: string;

  it('is booked by keyboard, signed through the private link and paid', async () => {
    first = await book(on, { caller: 'Paula Prior', street: '14 Alder Road', town: 'Birch', pair: /(Anna|Ben|Cora|Dan) Inspector first, (Anna|Ben|Cora|Dan) Inspector second/, facts: HOUSE_FACTS });
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
    await goTo(page, recordId, DEVICE);
    await on.look(page, 'device-step');
    await page.getByRole('radio', { name: 'trips and resets' }).check();
    await page.getByRole('button', { name: 'Done', exact: true }).click();
    await page.getByText('Everything is sent.').waitFor();

    await goTo(page, recordId, PARTNER_CHECK);
    await page.getByRole('radio').first().check();
    await page.getByText('Add a note').click();
    await page.getByLabel('Note (not needed)').fill('Stain above the stairs, dry today.');
    await page.getByRole('button', { name: 'Done', exact: true }).click();
    await page.getByText('has still to look').waitFor();
    await goTo(partner, recordId, PARTNER_CHECK);
    await partner.getByText('has recorded already').waitFor();
    expect(await partner.getByText('Stain above the stairs').count()).toBe(0);
    expect(JSON.stringify(await recordOf(partner, recordId))).not.toContain('Stain above the stairs');
    await on.look(partner, 'partner-check-withheld');
    await partner.getByRole('radio').first().check();
    await partner.getByRole('button', { name: 'Done', exact: true }).click();
    await partner.getByText('Stain above the stairs').waitFor();
    await on.look(partner, 'partner-check-compared');
    await endAndSeal(on, pair.second, recordId);
  });

  it('is reported by the lead and handed over', async () => {
    const page = await on.as('lead', `/jobs/${first.jobId}/report`);
    await page.getByText('Draft the report').click();
    await page.getByRole('button', { name: 'Draft this version' }).click();
    await page.getByRole('heading', { name: 'Version 1' }).waitFor();
    await page.getByRole('button', { name: 'Hand it over' }).click();
    await page.getByText(/sent by mail/).waitFor();
    await on.look(page, 'report');
  });
});
