// A procedure changes, in the browser: drafted in the form, compared, approved by a second person, acknowledged on the phone.
import fs from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const site = staffApp();
withStarter(site);

const folder = process.env.SCREENS;
async function look(page: Page, name: string): Promise<void> {
  await expectAccessible(page);
  if (!folder) return;
  fs.mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: path.join(folder, `${name}.png`), fullPage: true });
}

describe('a revision', () => {
  let draft: string;
  it('is drafted by the lead, step by step, and nothing is lost when the service refuses', async () => {
    const page = await site.openAs('lead', '/procedures');
    await page.getByRole('rowheader', { name: 'Attic and insulation' }).waitFor();
    await look(page, 'procedures-book');
    await page.getByRole('link', { name: 'Attic and insulation' }).click();
    await page.getByRole('heading', { name: 'Revision 1, in force' }).waitFor();
    await look(page, 'procedures-procedure');
    await page.getByLabel('Why the procedure is to change').fill('Ducts that end in the attic were missed.');
    await page.getByRole('button', { name: 'Begin a draft' }).click();
    await page.getByRole('button', { name: 'Edit: Bath fan duct in the attic' }).click();
    await page.getByLabel('Instruction').fill('It cost $900. Find the duct of each bath fan.');
    await page.getByRole('button', { name: 'Save the draft' }).click();
    await page.getByRole('alert').filter({ hasText: 'At step "Bath fan duct in the attic".' }).waitFor();
    await page.getByLabel('Instruction').fill('Find the duct of each bath fan and follow it to its end.');
    await page.getByText('Do, then confirm 8 lines').waitFor();
    await page.getByLabel('Where it is done').selectOption('elsewhere');
    await page.getByLabel('It applies').selectOption('all');
    await page.getByRole('button', { name: 'Add a condition' }).click();
    await page.getByLabel('Fact').last().selectOption('yearBuilt');
    await page.getByLabel('Compared').last().selectOption('below');
    expect(await page.getByRole('status').filter({ hasText: 'In words' }).textContent()).toMatch(/there is an attic and built before 1978/);
    await page.getByRole('button', { name: 'Add a reference' }).click();
    const reference = page.getByRole('group', { name: 'Reference 2' });
    await reference.getByLabel('Title').fill('International Residential Code');
    await reference.getByLabel('Section, or what it says').fill('M1501.1: exhaust to the outdoors');
    await reference.getByLabel('Edition').fill('numbering up to 2021');
    await page.getByRole('button', { name: 'Move up: Bath fan duct in the attic' }).click();
    await page.getByRole('button', { name: 'Add a question' }).click();
    await page.getByLabel('About the step').selectOption({ label: 'Bath fan duct in the attic' });
    await page.getByLabel('Question', { exact: true }).fill('The duct points at a vent under the insulation. Is it followed?');
    await page.getByLabel('Answer 1 of question 1').fill('yes');
    await page.getByLabel('Answer 2 of question 1').fill('no, and that is said');
    await page.getByRole('radio', { name: 'Answer 2 is right' }).check();
    await look(page, 'procedures-draft');
    await page.getByRole('button', { name: 'Save the draft' }).click();
    await page.getByText('The draft was saved.').waitFor();
    await page.getByRole('link', { name: 'Look at the comparison' }).click();
    await page.getByText('Steps: 1 moved and 1 changed.').waitFor();
    await page.getByText('Where it is done: elsewhere; before, at the attic.').first().waitFor();
    expect(await page.getByRole('button', { name: 'Approve ...' }).count()).toBe(0);
    draft = page.url().split('/').at(-1)!;
    await page.context().close();
  });
  it('is approved by the owner', async () => {
    const page = await site.openAs('owner', `/procedures/revision/${draft}`);
    await page.getByText('Both beside each other').first().click();
    await look(page, 'procedures-revision');
    await page.getByRole('button', { name: 'Approve ...' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Acknowledge by').waitFor();
    await look(page, 'procedures-approve');
    await dialog.getByRole('button', { name: 'Approve the revision' }).click();
    await page.getByText('in force', { exact: true }).waitFor();
    await page.getByText(/^Not yet: Anna Inspector/).waitFor();
    await page.context().close();
  });
  it('is read and acknowledged on the phone', async () => {
    const page = await site.openAs('anna', '/procedures', 'phone');
    await page.getByRole('link', { name: 'Attic and insulation, revision 2' }).click();
    await page.getByText('Steps: 1 moved and 1 changed.').waitFor();
    await page.getByRole('radio', { name: 'yes', exact: true }).check();
    await page.getByRole('button', { name: 'Check my answers' }).click();
    await page.getByText('Not right. Read the step again, then choose anew.').waitFor();
    await page.getByRole('alert').getByRole('heading', { name: 'Bath fan duct in the attic' }).waitFor();
    await look(page, 'procedures-acknowledge-phone');
    await page.getByRole('radio', { name: 'no, and that is said' }).check();
    await page.getByRole('button', { name: 'Check my answers' }).click();
    await page.getByRole('button', { name: 'I have read this and will work by it' }).click();
    await page.getByText(/^You acknowledged this on/).waitFor();
    await page.context().close();
  });
  it('is the first of a new procedure, whose steps come out of a table', async () => {
    const page = await site.openAs('lead', '/procedures');
    await page.getByRole('link', { name: 'New procedure' }).click();
    await page.getByLabel('Title').fill('Sauna');
    await page.getByLabel('Where it stands in the book').selectOption({ label: 'before Leaving' });
    await page.getByLabel('Why it is wanted').fill('Clients ask for it.');
    await page.getByRole('button', { name: 'Begin its first draft' }).click();
    await page.getByRole('link', { name: 'Take steps in from a table' }).click();
    const choose = async (text: string) => {
      const waiting = page.waitForEvent('filechooser');
      await page.getByRole('button', { name: 'Table (CSV)' }).click();
      await (await waiting).setFiles({ name: 'steps.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    };
    const head = 'Title,Instruction,Why,Minutes\r\n';
    await choose(`\uFEFF${head}Bench,Look at it.,,many\r\n`);
    await page.getByText('1 row read, nothing changed yet. 2 to put right first.').waitFor();
    await page.getByRole('rowheader', { name: '2, Why' }).waitFor();
    expect(await page.getByRole('button', { name: 'Take these steps in' }).isDisabled()).toBe(true);
    await look(page, 'procedures-table');
    await choose(`${head}Bench,Look at it.,It burns.,1\r\nDoor,It opens outward.,People faint.,1\r\n`);
    await page.getByText('All can be taken in.').waitFor();
    await page.getByRole('button', { name: 'Take these steps in' }).click();
    await page.getByText('2. Door').waitFor();
    await page.context().close();
  });
  it.each(['/procedures', '/procedures/coverage'])('fits the phone: %s', async (address) => {
    const page = await site.openAs('lead', address, 'phone');
    await page.getByRole('rowheader').first().waitFor();
    await look(page, `phone${address.replaceAll('/', '-')}`);
    await page.context().close();
  });
  it('shows an inspector no act of a lead', async () => {
    const page = await site.openAs('ben', `/procedures/revision/${draft}`, 'phone');
    await page.getByText('Steps: 1 moved and 1 changed.').waitFor();
    expect(await page.getByRole('button', { name: /Approve|Discard|Withdraw/ }).count()).toBe(0);
    await look(page, 'procedures-revision-phone');
    await page.context().close();
  });
});
