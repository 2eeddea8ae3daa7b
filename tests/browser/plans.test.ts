// Plans in the browser, by keyboard where one works with it: a day is planned and partly accepted; somebody is out and clients are called.
import { DateTime } from 'luxon';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { CAST } from '../support/cast.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const site = staffApp();
withStarter(site);
const { anna, ben, cora, dan } = CAST;
const ZONE = 'America/Chicago';

/** Three working days ahead, with nothing else on them. */
const days: string[] = [];
const at = (day: string, hour: number): string => DateTime.fromISO(day, { zone: ZONE }).set({ hour }).toUTC().toISO()!;
const visits: Record<string, { jobId: string; visitId: string }> = {};

beforeAll(async () => {
  for (let day = DateTime.now().setZone(ZONE).plus({ days: 2 }); days.length < 3; day = day.plus({ days: 1 }))
    if (day.weekday <= 5) days.push(day.toFormat('yyyy-MM-dd'));
  const book = async (
    day: string,
    hour: number,
    first: { id: string },
    second: { id: string },
    street: string,
    place: [number, number],
  ) => {
    visits[street] = await bookedVisit(site, {
      startsAt: at(day, hour),
      endsAt: at(day, hour + 3),
      first: first.id,
      second: second.id,
      street,
    });
    await site.database.transaction((tx) =>
      tx.db.property.updateMany({ where: { address: street }, data: { lat: place[0], lon: place[1] } }),
    );
  };
  await book(days[0]!, 9, anna, ben, '1 North Pier', [44.2, -88.46]);
  await book(days[0]!, 9, cora, dan, '1 South Mill', [44.03, -88.55]);
  await book(days[1]!, 9, anna, ben, '2 Mill Street', [44.03, -88.54]);
  await book(days[2]!, 9, cora, dan, '3 Harbor Row', [44.19, -88.46]);
});

const crewOf = (visitId: string) =>
  site.database.read.rows<{ id: string }>('SELECT person_id::text AS id FROM assignment WHERE visit_id = $1::uuid AND live', [visitId]);
const whole = async (page: Page): Promise<string> => (await page.getByRole('main').textContent()) ?? '';

describe('a day plan', () => {
  it('is asked for, shows what it saves with its proof, and is accepted in part by keyboard', async () => {
    const page = await site.openAs('office', `/day-plan?from=${days[0]}`);
    await page.getByText('What counts how much').click();
    await page.getByLabel('A minute of driving').waitFor();
    await page.getByLabel('First day').focus();
    await page.keyboard.press('Enter');
    await page.getByText(/Proven: no plan/).waitFor();
    await expectAccessible(page);
    expect(await whole(page)).toContain('less driving');
    await page.getByRole('button', { name: 'Untick all' }).focus();
    await page.keyboard.press('Enter');
    expect(await page.getByRole('button', { name: /^Accept 0 of/ }).isDisabled()).toBe(true);
    await page.getByRole('checkbox').first().focus();
    await page.keyboard.press('Space');
    await page.getByRole('button', { name: /^Accept/ }).focus();
    await page.keyboard.press('Enter');
    await page.getByText('(accepted)').first().waitFor();
    const crew = (await crewOf(visits['1 North Pier']!.visitId)).map(({ id }) => id);
    expect(crew).not.toContain(anna.id);
  });
  it('takes several days as one question, on a phone as well', async () => {
    const page = await site.openAs('office', `/day-plan?from=${days[0]}`, 'phone');
    await page.getByText('5 days', { exact: true }).click();
    await page.getByLabel(/^Visits may go to another of these days/).check();
    await page.getByLabel(/^Partners may change during a day/).check();
    await page.getByRole('button', { name: 'Plan these days' }).click();
    await page.getByRole('heading', { name: /, as one$/ }).waitFor();
    await expectAccessible(page);
  });
  it('fits a phone', async () => {
    const page = await site.openAs('office', '/day-plan', 'phone');
    await page
      .getByRole('link', { name: new RegExp(DateTime.fromISO(days[0]!).toFormat('LLL d')) })
      .last()
      .click();
    await page.getByText(/Proven: no plan/).waitFor();
    await expectAccessible(page);
  });
});

describe('the board of the week', () => {
  it('moves a visit by keyboard, with what that means shown before it is put down', async () => {
    const { visitId } = visits['3 Harbor Row']!;
    const startsAt = async () =>
      (
        await site.database.read.rows<{ at: string }>('SELECT starts_at AT TIME ZONE $2 AS at FROM visit WHERE id = $1::uuid', [
          visitId,
          ZONE,
        ])
      )
        .map(({ at: when }) => new Date(when).toISOString().slice(11, 16))
        .join();
    const page = await site.openAs('office', `/week?from=${days[2]}`);
    const button = page.getByRole('button', { name: /3 Harbor Row.*goes first/ });
    await button.focus();
    await page.keyboard.press('Enter');
    const hand = page.getByRole('region', { name: 'Visit in hand' });
    await hand.getByText('Where it is now.').waitFor();
    for (let hour = 9; hour < 18; hour++) await page.keyboard.press('Shift+ArrowRight');
    await hand.getByRole('alert').getByText('does not work from 6:00 PM').waitFor();
    await page.keyboard.press('Enter');
    for (let hour = 9; hour < 18; hour++) await page.keyboard.press('Shift+ArrowLeft');
    await page.keyboard.press('ArrowRight');
    await hand.getByText('Own people told by mail:').waitFor();
    await expectAccessible(page);
    const before = await startsAt();
    await hand.getByRole('slider').focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Put it back' }).waitFor();
    expect([before, await startsAt()]).toEqual(['09:00', '09:15']);
    await expect.poll(() => button.evaluate((one) => one === document.activeElement)).toBe(true);
  });
});

describe('somebody is out', () => {
  it('shows three ways, keeps the visit with other people, and has nobody to call', async () => {
    const page = await site.openAs('office', '/sick-call');
    await page.getByLabel('Who is out').selectOption({ label: anna.name });
    await page.getByLabel('From').selectOption({ label: 'From tomorrow' });
    await page.getByLabel('Last day away').fill(days[1]!);
    await page.getByRole('button', { name: 'Show three ways' }).click();
    await page.getByRole('heading', { name: `Somebody is out: ${anna.name}` }).waitFor();
    await page.getByRole('radio', { name: /Fewest changes/ }).waitFor();
    await expectAccessible(page);
    await page.getByRole('radio', { name: /Cheapest/ }).click();
    await page.getByRole('radio', { name: /Fewest changes/ }).click();
    await page.getByRole('button', { name: /^Accept/ }).click();
    await page.getByText('(accepted)').first().waitFor();
    expect((await crewOf(visits['2 Mill Street']!.visitId)).map(({ id }) => id)).not.toContain(anna.id);
    expect(await page.getByRole('radio', { name: /Cheapest/ }).isDisabled()).toBe(true);
  });
});

describe('the other screens about plans', () => {
  it('close a time for weather and show three ways to move its visit', async () => {
    const page = await site.openAs('office', '/weather');
    await page.getByRole('button', { name: 'Close a time' }).click();
    await page.getByLabel('From').fill(`${days[0]}T00:00`);
    await page.getByLabel('Until').fill(`${days[0]}T23:00`);
    await page.getByLabel('Weather').fill('ice storm');
    await page.getByRole('button', { name: 'Close this time' }).click();
    await page.getByText('1 North Pier, Birchmere').waitFor();
    await expectAccessible(page);
    await page.getByRole('button', { name: 'Show three ways to move them' }).click();
    await page
      .getByRole('cell', { name: /another day/ })
      .first()
      .waitFor();
    await expectAccessible(page);
  });
  it('say what plans keep of a visit, and refuse a window without its start', async () => {
    const page = await site.openAs('office', `/visits/${visits['1 South Mill']!.visitId}/kept`, 'phone');
    await page.getByLabel('At some time in a window').check();
    await page.getByLabel('Earliest').fill('06:00');
    await page.getByLabel('Latest').fill('07:00');
    await page.getByRole('button', { name: 'Keep this promise' }).click();
    await page.getByText('The window that is promised holds the start').waitFor();
    await page.getByLabel('Latest').fill('11:00');
    await page.getByRole('button', { name: 'Keep this promise' }).click();
    await page.getByText('Plans will keep to it.').waitFor();
    await page.getByLabel('Why plans leave it alone').fill('The client knows them.');
    await page.getByRole('button', { name: 'Leave this visit as it is' }).click();
    await page.getByText('The client knows them. (Otto Office').waitFor();
    await expectAccessible(page);
  });
  it('keep any of several days that were promised', async () => {
    const page = await site.openAs('office', `/visits/${visits['2 Mill Street']!.visitId}/kept`);
    await page.getByLabel(/^On any of several days/).check();
    await page.getByLabel('First day').fill(days[0]!);
    await page.getByLabel('Last day').fill(days[0]!);
    await page.getByLabel('Earliest').fill('08:00');
    await page.getByLabel('Latest').fill('14:30');
    await page.getByRole('button', { name: 'Keep this promise' }).click();
    await page.getByText('The window that is promised holds the start').waitFor();
    expect(await page.getByLabel('Latest').inputValue()).toBe('14:30');
    await page.getByLabel('Last day').fill(days[1]!);
    await page.getByRole('button', { name: 'Keep this promise' }).click();
    await page.getByText('Plans will keep to it.').waitFor();
    await page.reload();
    expect(await page.getByLabel(/^On any of several days/).isChecked()).toBe(true);
    expect([await page.getByLabel('First day').inputValue(), await page.getByLabel('Last day').inputValue()]).toEqual(days.slice(0, 2));
    // The page of the job tells it too, and can take it back.
    await page.getByRole('link', { name: /^Job \d+/ }).click();
    const visit = page.getByRole('region', { name: 'Visits' });
    await visit.getByText(/Told the client: between .* 8:00 AM and .* 2:30 PM/).waitFor();
    await visit.getByRole('button', { name: 'What the client was told' }).click();
    await visit.getByLabel('At some time in a window').check();
    await visit.getByLabel('Earliest').fill('08:00');
    await visit.getByLabel('Latest').fill('14:30');
    await visit.getByRole('button', { name: 'Keep this promise' }).click();
    await visit.getByText('Told the client: between 8:00 AM and 2:30 PM').waitFor();
  });
  it('plan the weeks that are booked where last year has nothing to compare with', async () => {
    const page = await site.openAs('owner', '/what-if', 'phone');
    await page.getByLabel('What would be otherwise').selectOption({ label: 'Faster or slower driving' });
    await page.getByRole('button', { name: 'Plan these weeks' }).click();
    await page.getByText('The visits on the calendar of these weeks themselves.').waitFor();
    await page.getByRole('table', { name: 'Week by week' }).waitFor();
    await expectAccessible(page);
  });
});
