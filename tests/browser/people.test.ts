// People and signing in, in the browser: what the office does, what is refused, and that nothing typed is lost.
import { describe, expect, it } from 'vitest';
import { CAST } from '../support/cast.ts';
import { expectAccessible, signIn, staffApp } from '../support/staffApp.ts';

const site = staffApp();
const anna = `/people/${CAST.anna.id}`;

describe('signing in', () => {
  it('comes back to where one was going', async () => {
    const page = await site.open('/people?role=inspector');
    await signIn(page, 'office');
    await page.getByRole('rowheader', { name: CAST.anna.name }).waitFor();
    expect(page.url()).toMatch(/\/people\?role=inspector$/);
    // What narrows the list is kept under a name, found again at the list and in the go-to box, renamed and deleted.
    await page.getByRole('button', { name: 'Keep this search' }).click();
    await page.getByLabel('Name of this search').fill('Those who inspect');
    await page.getByRole('button', { name: 'Keep it' }).click();
    const kept = page.getByRole('region', { name: 'Kept searches' });
    await kept.getByRole('link', { name: 'Those who inspect' }).waitFor();
    await page.goto(new URL('/kit', page.url()).href);
    // A form that opened in the place of its button gives the focus back to it.
    const add = page.getByRole('button', { name: 'Add a piece' });
    await add.click();
    await page.getByRole('button', { name: 'Leave without saving' }).press('Enter');
    await expect.poll(() => add.evaluate((button) => button === document.activeElement)).toBe(true);
    await page.getByRole('combobox', { name: 'Go to' }).fill('who insp');
    await page.getByRole('option', { name: 'Those who inspect' }).click();
    await page.waitForURL(/\/people\?role=inspector$/);
    await kept.getByRole('button', { name: 'Rename' }).click();
    await page.getByLabel('Name of this search').fill('Inspectors');
    await expectAccessible(page);
    await page.getByRole('button', { name: 'Keep it' }).click();
    expect(await kept.getByRole('link', { name: 'Inspectors' }).getAttribute('aria-current')).toBe('page');
    await kept.getByRole('button', { name: 'Delete' }).click();
    await kept.getByRole('link', { name: 'Inspectors' }).waitFor({ state: 'detached' });
  });

  it('says what was refused and keeps what was typed', async () => {
    const page = await site.open('/sign-in');
    await page.getByLabel('E-mail address').fill('nobody@test.example');
    await page.getByLabel('Password', { exact: true }).fill('not the password');
    await page.keyboard.press('Enter');
    expect(await page.getByRole('alert').textContent()).toBe('The e-mail address or the password is not right.');
    expect(await page.getByLabel('E-mail address').inputValue()).toBe('nobody@test.example');
  });

  it('never leads to another site', async () => {
    const page = await site.open('/sign-in?from=//elsewhere.example');
    await signIn(page, 'office');
    await page.getByRole('heading', { name: 'Home' }).waitFor();
  });

  it('leads an owner to what the firm still lacks, which is left for all, or taken up again', async () => {
    const [owner, office] = [await site.openAs('owner', '/'), await site.openAs('office', '/')];
    const step = (page: typeof owner) => page.getByText('Say who is on call', { exact: true });
    await step(office).waitFor();
    expect(await office.getByRole('button', { name: /^Leave/ }).count()).toBe(0);
    await owner.getByRole('button', { name: 'Leave it: Say who is on call' }).click();
    await step(owner).waitFor({ state: 'detached' });
    await office.reload();
    await office.getByText('Book the first job', { exact: true }).waitFor();
    expect(await step(office).count()).toBe(0);
    await expectAccessible(owner);
    await owner.getByRole('button', { name: 'Undo' }).click();
    await step(owner).waitFor();
  });
});

describe('people', () => {
  it('adds a person and shows the record', async () => {
    const page = await site.openAs('office', '/people/new');
    const values = {
      Name: 'Ida Quist',
      Phone: '920-555-0177',
      'E-mail address': 'ida@test.example',
      'Home address': '4 Mill Street, Orrin Mills',
      'ZIP code': '54952',
    };
    for (const [label, value] of Object.entries(values)) await page.getByRole('textbox', { name: label }).fill(value);
    // What takes long is said; here the answer waits until it was.
    await page.clock.install();
    let answer = (): void => {};
    await page.route('**/api/people', async (request) => {
      if (request.request().method() === 'POST') await new Promise<void>((go) => (answer = go));
      await request.continue();
    });
    await page.getByRole('button', { name: 'Add this person' }).click();
    await page.clock.runFor(2100);
    await page.getByText('Still working on it').waitFor();
    answer();
    await page.clock.resume();
    await page.getByRole('heading', { name: 'Ida Quist' }).waitFor();
    expect(await page.getByRole('main').textContent()).toContain('4 Mill Street, Orrin Mills');
  });

  it('names each input at fault in plain words, and the summary has the focus', async () => {
    const page = await site.openAs('office', '/people/new');
    await page.getByRole('button', { name: 'Add this person' }).click();
    const summary = page.getByRole('alert');
    await summary.waitFor();
    expect(await summary.evaluate((box) => box === document.activeElement)).toBe(true);
    expect(await summary.getByRole('listitem').first().textContent()).toBe('Name: This is needed.');
    await summary.getByRole('link', { name: 'ZIP code' }).click();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('field-homeLat');
    // What is typed outlives a reload, all but a password.
    await page.getByRole('textbox', { name: 'Name', exact: true }).fill('Half Typed');
    await page.getByLabel('First password').fill('not kept at all');
    await page.reload();
    await page.getByText('What you typed here earlier is still here. It was not sent.').waitFor();
    expect(await page.getByRole('textbox', { name: 'Name', exact: true }).inputValue()).toBe('Half Typed');
    expect(await page.evaluate(() => JSON.stringify(localStorage))).not.toContain('not kept at all');
    await page.getByRole('button', { name: 'Begin anew' }).click();
    expect(await page.getByRole('textbox', { name: 'Name', exact: true }).inputValue()).toBe('');
    // So does a reason of one line.
    await page.goto(new URL('/mail', page.url()).href);
    await page.getByRole('button', { name: 'Pause all mail' }).click();
    await page.getByLabel('Why').fill('The server moves');
    await page.reload();
    await page.getByRole('button', { name: 'Pause all mail' }).click();
    expect(await page.getByLabel('Why').inputValue()).toBe('The server moves');
  });

  it('shows both versions when somebody else was faster, and saves what one keeps', async () => {
    const first = await site.openAs('owner', `${anna}?change=true`);
    await first.getByRole('textbox', { name: 'Phone' }).waitFor();
    const second = await site.openAs('second', `${anna}?change=true`);
    for (const [page, phone] of [
      [second, '920-555-0188'],
      [first, '920-555-0199'],
    ] as const) {
      await page.getByRole('textbox', { name: 'Phone' }).fill(phone);
      await page.getByRole('button', { name: 'Save the changes' }).click();
      if (page === second) await page.getByRole('link', { name: 'Change' }).waitFor();
    }
    await first.getByText('Phone: now on file "920-555-0188", you have "920-555-0199"').waitFor();
    await first.getByRole('button', { name: 'Keep mine and go on' }).click();
    await first.getByRole('button', { name: 'Save the changes' }).click();
    await first.getByRole('link', { name: '920-555-0199' }).waitFor();
  });

  it('lets one sign in again over a form when the session has ended, and loses nothing', async () => {
    const page = await site.openAs('owner', `${anna}?change=true`);
    await page.getByRole('textbox', { name: 'Home address' }).fill('9 Quay Street, Port Ansel');
    await page.waitForLoadState('networkidle'); // what was asked for before the session ended is answered
    await page.context().clearCookies();
    await page.getByRole('button', { name: 'Save the changes' }).click();
    await page.getByRole('dialog').waitFor();
    await signIn(page, 'owner');
    await page.getByRole('button', { name: 'Save the changes' }).click();
    await page.getByText('9 Quay Street, Port Ansel').waitFor();
  });

  it('offers no change to those who may not, and says of a screen for others what they may do instead', async () => {
    const page = await site.openAs('anna', anna);
    await page.getByRole('heading', { name: CAST.anna.name }).waitFor();
    expect(await page.getByRole('link', { name: 'Change', exact: true }).count()).toBe(0);
    for (const [address, why] of [
      ['/ledger/entries', '"Ledger" is for the owner.'],
      ['/book', '"Book a job" is for the owner, office manager or lead inspector.'],
      ['/procedures/new', 'You may use "Procedures"; this part of it is for other roles.'],
    ] as const) {
      await page.goto(new URL(address, page.url()).href);
      await page.getByText(why).waitFor();
      expect(await page.getByRole('main').locator('input, [role="alert"]').count()).toBe(0);
    }
    await expectAccessible(page);
    await page.getByRole('main').getByRole('link', { name: 'Procedures', exact: true }).click();
    await page.getByRole('heading', { level: 1, name: 'Procedures' }).waitFor();
  });
});

describe('the go-to box', () => {
  it('opens by a key from anywhere, finds by part of a name, goes by Enter, and knows where one was', async () => {
    const page = await site.openAs('office', '/week');
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.keyboard.press('/');
    const box = page.getByRole('combobox', { name: 'Go to' });
    await box.pressSequentially('ann');
    const found = page.getByRole('option', { name: CAST.anna.name });
    await expect.poll(() => found.getAttribute('aria-selected')).toBe('true');
    expect(await box.getAttribute('aria-activedescendant')).toBe(await found.getAttribute('id'));
    await expectAccessible(page); // tries the width of a phone, where the box at the side has no place, and the focus leaves it
    await box.focus();
    await found.waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: CAST.anna.name }).waitFor();
    await page.keyboard.press('Control+k');
    await box.fill('zzzz');
    await page.getByText('Nothing that you may see has these words').filter({ visible: true }).first().waitFor();
    await page.keyboard.press('Escape');
    expect(await page.getByRole('listbox').count()).toBe(0);
    await page.keyboard.press('Escape');
    await page.keyboard.press('ArrowDown');
    expect(await page.getByRole('listbox', { name: 'Found' }).getByRole('option').allTextContents()).toEqual([CAST.anna.name]);
  });
});
