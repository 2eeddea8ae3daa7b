// Signing in with a second factor: an owner sets it up before anything else, keeps the codes, and signs in with the phone from then on.
import { Secret, TOTP } from 'otpauth';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { CAST, PASSWORD } from '../support/cast.ts';
import { expectAccessible, staffApp, WIDTHS } from '../support/staffApp.ts';

const site = staffApp({ SECOND_FACTOR: 'owners' });

let page: Page;
let codes: string[];
const enter = async () => {
  await page.getByLabel('E-mail address').fill(CAST.owner.email);
  await page.getByLabel('Password', { exact: true }).fill(PASSWORD);
  await page.keyboard.press('Enter');
};

it('is set up before anything else', async () => {
  page = await site.open('/week');
  await enter();
  await page.getByRole('heading', { name: 'Signing in' }).waitFor();
  await page.getByText('One thing before you go on').waitFor();
  await page.goto(new URL('/people', page.url()).href);
  await page.waitForURL('**/security'); // whatever address
  await page.getByLabel('Your password').fill('not it at all');
  await page.keyboard.press('Enter');
  await page.getByText('The present password is not right.').first().waitFor();
  await page.getByLabel('Your password').fill(PASSWORD);
  await page.keyboard.press('Enter');
  await page.getByRole('img', { name: /^Picture of the key/ }).waitFor();
  await expectAccessible(page);
  const [key, size] = [page.getByLabel('Key', { exact: true }), page.viewportSize()!];
  await page.setViewportSize(WIDTHS.phone); // on the phone itself no camera sees the picture
  expect(await key.evaluate((one) => [one.scrollWidth - one.clientWidth, one.scrollHeight - one.clientHeight])).toEqual([0, 0]);
  expect(await page.getByRole('link', { name: 'Open the app of this phone' }).getAttribute('href')).toMatch(/^otpauth:/);
  await page.setViewportSize(size);
  const secret = (await page.getByLabel('Key', { exact: true }).inputValue()).replaceAll(' ', '');
  const shown = () => new TOTP({ secret: Secret.fromBase32(secret) }).generate();
  await page.getByLabel('The six digits that the phone shows').fill('000000');
  await page.keyboard.press('Enter');
  await page
    .getByText(/^This code is not right/)
    .first()
    .waitFor();
  await page.getByLabel('The six digits that the phone shows').fill(shown());
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Keep these codes' }).waitFor();
  codes = await page
    .getByRole('listitem')
    .filter({ hasText: /^\w{4}(-\w{4}){6}$/ })
    .allTextContents();
  expect(codes).toHaveLength(10);
  await page.setViewportSize(WIDTHS.phone);
  await expectAccessible(page);
  await page.setViewportSize(WIDTHS.desk);
  await page.getByRole('button', { name: 'I have kept them' }).click();
  await page.getByText('10 recovery codes are left').waitFor();
  await page.getByText('here, now').waitFor();
});

it('is asked for from then on; a code for a lost phone does as well, once', async () => {
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.getByRole('heading', { name: 'Sign in' }).waitFor();
  await enter();
  const code = page.getByLabel('Code of your phone');
  await code.waitFor();
  expect(await code.evaluate((input) => input === document.activeElement)).toBe(true);
  await code.fill('123 456');
  await page.keyboard.press('Enter');
  await page
    .getByText(/^This code is not right/)
    .first()
    .waitFor();
  await code.fill(codes[0]!.toUpperCase());
  await page.keyboard.press('Enter');
  await page.getByRole('link', { name: 'Week' }).first().waitFor();
  await page.goto(new URL('/security', page.url()).href);
  await page.getByText('9 recovery codes are left').waitFor();
  await page.getByRole('button', { name: 'New recovery codes' }).click();
  await page.getByLabel('Your own password').fill(PASSWORD);
  await page.getByLabel('Code of your phone').fill(codes[1]!);
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Make new codes' }).click();
  await page.getByRole('button', { name: 'I have kept them' }).click();
  await page.getByText('10 recovery codes are left').waitFor();
});

it('is off where nobody must have it; sessions end from another device', async () => {
  const [desk, phone] = [await site.openAs('anna', '/security'), await site.openAs('anna', '/security', 'phone')];
  await desk.reload();
  await desk.getByText('here, now').waitFor();
  await desk
    .getByRole('button', { name: /^End the session on/ })
    .first()
    .click();
  await desk.getByLabel('Your own password').fill(PASSWORD);
  await desk.getByRole('button', { name: 'End it' }).click();
  await desk.getByText('That session has ended.').waitFor();
  await phone.reload();
  await phone
    .getByText('Your session has ended')
    .or(phone.getByRole('heading', { name: 'Sign in' }))
    .first()
    .waitFor();
  await expectAccessible(desk);
});

it('is reached again by whoever forgot the password: a link by mail, a new password, signed in', async () => {
  const [forgot, mailed] = [await site.open('/sign-in'), `SELECT body FROM outgoing_mail WHERE to_address = '${CAST.dan.email}'`];
  await forgot.getByRole('link', { name: 'Password forgotten?' }).click();
  await forgot.getByLabel('Password', { exact: true }).waitFor({ state: 'detached' }); // both pages ask for an address
  await forgot.getByLabel('E-mail address').fill(CAST.dan.email);
  await forgot.keyboard.press('Enter');
  await forgot.getByText(`If somebody signs in with ${CAST.dan.email}`).waitFor();
  const [mail] = await site.database.read.rows<{ body: string }>(mailed);
  await forgot.goto(new URL(/\/new-password\/[\w-]+/.exec(mail!.body)![0], forgot.url()).href);
  await forgot.getByLabel('New password').fill('short');
  await forgot.keyboard.press('Enter');
  await forgot.getByText('A password needs at least 12 characters.').first().waitFor();
  await forgot.getByLabel('New password').fill('dan walks the north pier');
  await forgot.keyboard.press('Enter');
  await forgot.getByLabel('E-mail address').fill(CAST.dan.email);
  await forgot.getByLabel('Password', { exact: true }).fill('dan walks the north pier');
  await forgot.keyboard.press('Enter');
  await forgot.getByRole('link', { name: CAST.dan.name }).waitFor();
});

it('of somebody else are ended by an owner; the address to sign in with changes with the own password', async () => {
  const phone = await site.openAs('ben', '/people', 'phone');
  const owner = page;
  await owner.goto(new URL(`/people/${CAST.ben.id}/password`, page.url()).href);
  await owner.getByRole('button', { name: 'Sign out everywhere' }).click();
  await owner.getByLabel('Your own password').last().fill(PASSWORD);
  await expectAccessible(owner);
  await owner.getByRole('button', { name: 'Sign out everywhere' }).click();
  await owner.getByText('is signed out everywhere.').first().waitFor();
  await phone.reload();
  await phone.getByRole('heading', { name: 'Sign in' }).or(phone.getByText('Your session has ended')).first().waitFor();
  await owner.goto(new URL(`/people/${CAST.ben.id}?change=true`, owner.url()).href);
  await owner.getByLabel('E-mail').fill('ben.moved@test.example');
  await owner.getByLabel('Your own password').fill('not it at all');
  await owner.getByRole('button', { name: 'Save the changes' }).click();
  await owner.getByText('The present password is not right.').first().waitFor();
  await owner.getByLabel('Your own password').fill(PASSWORD);
  await owner.getByRole('button', { name: 'Save the changes' }).click();
  await owner.getByText('ben.moved@test.example').waitFor();
});
