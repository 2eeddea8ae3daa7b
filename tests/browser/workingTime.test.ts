// Working time in the browser: asked for on a phone, decided at the desk; miles, education hours, the calendar address; kit that fails on site.
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { DateTime } from 'luxon';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch } from '../support/browser.ts';
import { CAST, withCast, type CastName } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { withSite } from '../support/site.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const service = testService();
withCast(service);
withStarter(service);
const site = withSite(service);
const DESK = { width: 1280, height: 900 };
const PHONE = { width: 390, height: 844 };
const folder = process.env.SCREENS;
let browser: Browser;
let visitDay: DateTime;

beforeAll(async () => {
  visitDay = DateTime.now().setZone('America/Chicago').plus({ days: 10 }).startOf('day');
  const at = (hour: number): string => visitDay.plus({ hours: hour }).toUTC().toISO()!;
  await bookedVisit(service, { startsAt: at(9), endsAt: at(12), first: CAST.anna.id, second: CAST.ben.id, street: '12 Heron Lane' });
  const soon = new Date(service.clock.now.getTime() - 30 * 60_000).toISOString();
  const later = new Date(service.clock.now.getTime() + 90 * 60_000).toISOString();
  await bookedVisit(service, { startsAt: soon, endsAt: later, first: CAST.anna.id, second: CAST.ben.id, street: '14 Heron Lane' });
  browser = await launch();
});
afterAll(() => browser?.close());

async function openAs(who: CastName, at: string, viewport = DESK): Promise<Page> {
  const page = await browser.newPage({ viewport });
  await site.signIn(page, who);
  await page.goto(`${site.url}${at}`);
  await page.locator('h1').first().waitFor();
  return page;
}

async function picture(page: Page, name: string): Promise<void> {
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
  if (!folder) return;
  fs.mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: path.join(folder, `${name}.png`), fullPage: true });
}
const localMinute = (day: DateTime, hour: number): string => day.plus({ hours: hour }).toFormat("yyyy-MM-dd'T'HH:mm");

describe('an absence', () => {
  it('is asked for on the phone and approved in its line of the home with its visit kept on purpose', async () => {
    const phone = await openAs('anna', '/my-time', PHONE);
    await phone.getByRole('button', { name: 'Ask for an absence' }).click();
    await phone.getByLabel(/^From/).fill(localMinute(visitDay, 0));
    await phone.getByLabel(/^Until/).fill(localMinute(visitDay, 23));
    await phone.getByLabel(/^Reason/).fill('a wedding');
    await phone.getByRole('button', { name: 'Ask for this absence' }).click();
    await phone.getByText('asked, not decided yet').first().waitFor();
    await picture(phone, 'my-time-phone');
    const desk = await openAs('office', '/');
    await desk
      .getByRole('region', { name: /Absences asked for/ })
      .getByRole('button', { name: `Decide: ${CAST.anna.name}` })
      .click();
    const group = desk.getByRole('group', { name: 'Absence asked for' });
    await group.getByText(/12 Heron Lane/).waitFor();
    await picture(desk, 'absence-decide');
    await group.getByRole('button', { name: 'Approve' }).click();
    await group.getByRole('alert').waitFor();
    await group.getByLabel(/Keep these visits booked/).check();
    await group.getByRole('button', { name: 'Approve' }).click();
    await group.waitFor({ state: 'hidden' });
    await desk.getByRole('region', { name: /Absences asked for/ }).waitFor({ state: 'hidden' });
    await desk
      .getByRole('region', { name: /whose people are away/ })
      .getByText(/12 Heron Lane/)
      .waitFor();
    await picture(desk, 'home-office');
  });
  it('and a day with other hours show in the week, with the drives', async () => {
    const day = visitDay.toFormat('yyyy-MM-dd');
    const desk = await openAs('office', `/people/${CAST.cora.id}`);
    await desk.getByRole('button', { name: 'Add a day' }).click();
    const form = desk.getByRole('region', { name: 'Days with other hours' });
    await form.getByLabel(/^Day/).fill(day);
    await form.getByLabel(/^From/).fill('10:00');
    await form.getByLabel(/^Until/).fill('14:00');
    await form.getByRole('button', { name: 'Set this day' }).click();
    await form.getByText('10:00 to 14:00').waitFor();
    await desk.goto(`${site.url}/week?from=${visitDay.startOf('week').toFormat('yyyy-MM-dd')}`);
    await desk.getByText('other hours: 10:00 AM to 2:00 PM').waitFor();
    await desk.getByText('away', { exact: false }).first().waitFor();
    await picture(desk, 'week');
  });
});

describe('miles', () => {
  it('are entered by odometer on the phone, corrected, and seen by the office with their amount', async () => {
    const phone = await openAs('ben', '/my-time', PHONE);
    const miles = phone.getByRole('region', { name: 'Miles of the last two weeks' });
    await miles.getByRole('button', { name: 'Enter miles' }).click();
    await miles.getByLabel('Odometer at the start').fill('45100');
    await miles.getByLabel('Odometer at the end').fill('45090');
    await miles.getByRole('button', { name: 'Enter these miles' }).click();
    await miles
      .getByRole('alert')
      .getByText(/must not read less/)
      .waitFor();
    await miles.getByLabel('Odometer at the end').fill('45162');
    await miles.getByRole('button', { name: 'Enter these miles' }).click();
    await miles.getByText('62.0', { exact: true }).waitFor();
    await picture(phone, 'miles-phone');
    const desk = await openAs('owner', '/mileage');
    await desk.getByText('$43.40').first().waitFor();
    await picture(desk, 'mileage');
  });
});

describe('education hours', () => {
  it('are put on file with a certificate, and what is missing is said', async () => {
    const certificate = path.join(os.tmpdir(), `certificate-${randomUUID()}.pdf`);
    fs.writeFileSync(certificate, '%PDF-1.7 certificate');
    const page = await openAs('ben', '/my-time');
    const part = page.getByRole('region', { name: 'Education hours' });
    await part.getByText(/missing/).waitFor();
    await part.getByRole('button', { name: 'Add hours' }).click();
    await part.getByLabel('Course').fill('Frost and foundations');
    await part.getByLabel('Category').fill('Structure');
    await part.getByRole('textbox', { name: 'Hours' }).fill('8');
    await page.locator('input[type=file]').setInputFiles(certificate);
    await part.getByRole('button', { name: 'Put the hours on file' }).click();
    await part.getByText('Frost and foundations').waitFor();
    await part.getByText(/32 h missing/).waitFor();
    fs.rmSync(certificate);
    await picture(page, 'my-time-desk');
  });
});

describe('the calendar address', () => {
  it('is shown once, and serves the calendar', async () => {
    const page = await openAs('ben', '/my-time');
    await page.getByRole('button', { name: 'Open an address' }).click();
    const address = new URL(await page.getByLabel('Your address').inputValue());
    const feed = await page.request.get(`${site.url}${address.pathname}`);
    expect(await feed.text()).toContain('BEGIN:VCALENDAR');
    await page.reload();
    await page.getByText(/Open since/).waitFor();
    expect(await page.getByLabel('Your address').count()).toBe(0);
  });
});

describe('kit', () => {
  it('that fails on site is blocked at once, and who could bring another one is shown', async () => {
    const phone = await openAs('anna', '/kit', PHONE);
    await phone.getByRole('searchbox', { name: 'Search' }).fill('ladder-1');
    await phone.getByRole('button', { name: 'It failed: Extension ladder ladder-1' }).click();
    await phone.getByLabel('What is wrong with it').fill('a rung is cracked');
    expect(await phone.getByLabel('At which visit').locator('option').allTextContents()).toContain('no visit');
    await phone.getByRole('button', { name: 'It failed: block it now' }).click();
    await phone.getByText(/is out of service. Nobody is sent with it/).waitFor();
    await picture(phone, 'kit-failed-phone');
  });
  it('is checked, and says when it is due again', async () => {
    const desk = await openAs('lead', '/kit');
    await desk.getByRole('button', { name: 'Check: Gas detector gas_detector-1' }).click();
    await desk.getByRole('button', { name: 'Note this check' }).click();
    await desk
      .getByRole('row', { name: /gas_detector-1/ })
      .getByText(/battery by/)
      .waitFor();
    await picture(desk, 'kit');
  });
});
