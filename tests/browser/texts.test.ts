// The office drafts an agreement text with a look at a job, the owner compares and approves it, and reads the rules of the states: in a real browser.
import { expect, it } from 'vitest';
import { paidJob } from '../support/paidJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);

it('a text is drafted, refused, previewed, compared and approved', async () => {
  const { jobId } = await paidJob(app);
  const [job] = await app.database.read.rows<{ number: number }>('SELECT number FROM job WHERE id = $1::uuid', [jobId]);
  const office = await app.openAs('office', '/agreement-texts');
  await office.getByText('In force since').first().waitFor();
  await expectAccessible(office);
  await office.getByRole('link', { name: 'Pre-inspection agreement' }).first().click();
  await office.getByRole('button', { name: 'New draft from this text' }).click();
  await office.getByLabel('Why a new text').fill('Say that shoes stay on');
  await office.getByRole('button', { name: 'Begin the draft' }).click();
  await office.getByRole('heading', { name: /^Draft of text/ }).waitFor();
  await office.getByRole('button', { name: 'Add a clause' }).click();
  await office.getByRole('textbox', { name: 'Title', exact: true }).last().fill('Shoes in the house');
  await office.getByLabel('Words').fill('Shoes stay on, under {{covers}}.');
  await office.getByRole('button', { name: 'Save the draft' }).click();
  await office.getByText('asks for {{covers}}').first().waitFor();
  expect(await office.getByLabel('Words').inputValue()).toBe('Shoes stay on, under {{covers}}.');
  await office.getByLabel('Words').fill('Shoes stay on, under covers of **{{firm}}**.');
  await office.getByLabel('Number of a job').fill(String(job!.number));
  await office.getByRole('article').getByText('Shoes stay on, under covers of').last().waitFor();
  await office.getByText('Left out, as they do not apply').waitFor();
  await expectAccessible(office);
  await office.getByRole('button', { name: 'Save the draft' }).click();
  await office.getByRole('link', { name: 'Look at the text' }).click();
  await office.getByText('You wrote this draft last').waitFor();
  const owner = await app.openAs('owner', new URL(office.url()).pathname);
  await owner.getByRole('link', { name: 'What is different' }).click();
  await owner.getByText('New clause: Shoes in the house').waitFor();
  await expectAccessible(owner);
  await owner.getByRole('link', { name: 'Back to the text' }).click();
  await owner.getByRole('button', { name: 'Approve', exact: true }).click();
  await owner.getByRole('button', { name: 'Approve the text' }).click();
  await owner.getByText('An example that no attorney has reviewed.').waitFor();
  await expectAccessible(owner);
});

it('the owner reads the rules of a state and says where the firm works', async () => {
  const page = await app.openAs('owner', '/state-rules', 'phone');
  await page.getByRole('checkbox', { name: 'Wisconsin' }).check();
  await page.getByRole('button', { name: 'Save the states' }).click();
  await page.getByText('The states were saved.').waitFor();
  await page.getByText('no rule was found: policy of the firm').first().waitFor();
  await page.getByText('from memory, to be read in the source').first().waitFor();
  await expectAccessible(page);
});
