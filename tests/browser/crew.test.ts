// At the desk: wishes and a pair that was not offered, a hold that counts down and is kept once more, who comes along, an outside provider, a re-inspection.
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { beforeAll, describe, it } from 'vitest';
import { dayIn } from '@backsight/store/database';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const site = staffApp();
withStarter(site);
const folder = process.env.SCREENS;

async function picture(page: Page, name: string): Promise<void> {
  await expectAccessible(page);
  if (!folder) return;
  fs.mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: path.join(folder, `${name}.png`), fullPage: true });
}

beforeAll(async () => {
  await site.database.transaction(({ db }) =>
    db.provider.create({
      data: {
        id: randomUUID(),
        name: 'Cattail Septic Evaluations',
        phone: '920-555-0192',
        serviceKey: 'septic',
        contractsWithUs: false,
        costCents: 36_000,
        minutes: 90,
        offsetMinutes: 30,
        insuranceUntil: dayIn('2099-01-31'),
      },
    }),
  );
});

async function fillHouse(page: Page, caller: string, street: string): Promise<void> {
  await page.getByLabel('Name', { exact: false }).first().fill(caller);
  await page
    .getByLabel('E-mail address')
    .first()
    .fill(`${caller.split(' ')[0]!.toLowerCase()}@test.example`);
  await page.getByLabel('Street address').fill(street);
  await page.getByLabel('Town').first().selectOption('Birchmere');
  await page.getByLabel('Living area').fill('1800');
}

const hold = (page: Page) => page.getByRole('button', { name: /Hold this time/ });

async function heldJob(page: Page, caller: string, street: string): Promise<void> {
  await fillHouse(page, caller, street);
  await page.locator('input[name=start]').first().check();
  await hold(page).click();
  await page.getByRole('heading', { name: /^Job \d+/ }).waitFor();
}

describe('the starts and who comes along', () => {
  it('shows starts by day with every part of the score, and says why two others are not offered', async () => {
    const page = await site.openAs('office', '/book');
    await fillHouse(page, 'Wanda Wish', '3 Sedge Road');
    await page.locator('input[name=start]').first().waitFor();
    await page.getByLabel('Which day').selectOption({ label: 'Every day, soonest first' });
    await page.getByRole('radiogroup', { name: 'Start and pair, by day' }).waitFor();
    await page.locator('details', { hasText: 'Why: ' }).first().locator('summary').click();
    await page.getByText('Wishes not met: 0 min').first().waitFor();
    await page.getByText('Why not two other people?').click();
    await page.getByLabel('One', { exact: true }).selectOption({ label: 'Anna Inspector' });
    await page.getByLabel('The other').selectOption({ label: 'Tess Trainee' });
    await page.getByText('These two cannot go together on any of these days.').waitFor();
    await picture(page, 'book-wishes');
    await page.getByLabel('The other').selectOption({ label: 'Ben Inspector' });
    await page.getByText(/Their best start costs \d+ min more/).waitFor();
  });

  it('keeps a hold once more and counts it down; somebody comes along', async () => {
    const page = await site.openAs('office', '/book');
    await heldJob(page, 'Hedda Hold', '5 Sedge Road');
    await page
      .getByRole('timer')
      .getByText(/^\d+:\d\d$/)
      .waitFor();
    await page.getByRole('button', { name: 'Keep it once more' }).click();
    await page.getByText(/^[34]\d:\d\d$/).waitFor();
    await page.getByRole('button', { name: 'Keep it once more' }).waitFor({ state: 'detached' });
    const else_ = page.getByRole('region', { name: 'Who else comes' });
    await else_.getByRole('button', { name: 'Somebody comes along' }).click();
    await page.getByLabel('Who comes along').selectOption({ label: 'Tess Trainee' });
    await page.getByRole('button', { name: 'Add to the visit' }).click();
    await else_.getByText('Tess Trainee comes along, in training').waitFor();
    await picture(page, 'job-crew');
    await page.getByRole('button', { name: 'Tess Trainee does not come along' }).click();
    await else_.getByText('Tess Trainee comes along').waitFor({ state: 'detached' });
  });
});

describe('a chosen start', () => {
  it('says when the chosen start is no longer possible', async () => {
    const page = await site.openAs('office', '/book');
    await fillHouse(page, 'Gone Ginger', '8 Sedge Road');
    await page.locator('input[name=start]').first().check();
    await page.getByLabel('Living area').fill('14000');
    await page.getByRole('alert').getByText('is no longer possible with what is known now').waitFor();
    await page.getByRole('button', { name: 'Begin anew' }).click();
  });
});

describe('an outside provider', () => {
  it('is kept with papers and price, and chosen on a job', async () => {
    const page = await site.openAs('office', '/providers');
    await page.getByRole('button', { name: 'Add a provider' }).click();
    await page.getByLabel('Service').selectOption('septic');
    await page.getByLabel('Name').fill('Sedge Septic');
    await page.getByLabel('Phone').fill('920-555-0197');
    await page.getByLabel('Cost agreed, in dollars').fill('410');
    await page.getByLabel('Insurance certificate valid until').fill('2020-01-31');
    await page.getByRole('button', { name: 'Add this provider' }).click();
    await page.getByRole('cell', { name: /^Sedge Septic/ }).waitFor();
    await page.getByText(', lapsed').waitFor();
    await picture(page, 'providers-desk');
    await page.getByRole('button', { name: 'Change Sedge Septic' }).click();
    await page.getByLabel('Insurance certificate valid until').fill('2099-01-31');
    await page.getByRole('button', { name: 'Save the change' }).click();
    await page.getByText(', lapsed').waitFor({ state: 'detached' });
    await page.goto(`${new URL(page.url()).origin}/book`);
    await fillHouse(page, 'Sina Septic', '9 Sedge Road');
    await page.getByText('More about the house').click();
    await page.getByLabel('Waste water').selectOption('septic');
    await page.getByLabel('Find a service').fill('septic');
    await page.getByLabel('Septic evaluation by a credentialed person').check();
    await page.locator('input[name=start]').first().check();
    await page.getByRole('button', { name: 'Hold this time for $890.00' }).click();
    const crew = page.getByRole('region', { name: 'Who else comes' });
    await crew.getByText('Cattail Septic Evaluations').waitFor();
    await crew.getByRole('button', { name: 'Choose the provider' }).click();
    await page.getByRole('combobox', { name: 'Provider' }).selectOption({ index: 1 });
    await page.getByRole('button', { name: 'Book this provider' }).click();
    await crew.getByText('Sedge Septic, 920-555-0197').waitFor();
    await crew.getByText('$410.00').waitFor();
    await picture(page, 'job-provider-desk');
  });
});
