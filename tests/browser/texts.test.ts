// The office drafts an agreement text with a look at a job, the owner compares and approves it, and reads the rules of the states: in a real browser.
import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { openRecord } from '@backsight/usecases/sitework/openRecord';
import { receiveCallback } from '@backsight/usecases/callbacks/receiveCallback';
import { as } from '../support/cast.ts';
import { paidJob } from '../support/paidJob.ts';
import { flat, readPdf } from '../support/pdf.ts';
import { siteJob } from '../support/siteJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);

it('a text is drafted, refused, previewed, compared and approved', async () => {
  const { jobId } = await paidJob(app);
  const [job] = await app.database.read.rows<{ number: number }>('SELECT number FROM job WHERE id = $1::uuid', [jobId]);
  const office = await app.openAs('office', '/agreement-texts');
  await office.getByText('In force since').first().waitFor();
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
});

it('the owner reads the rules of a state and says where the firm works', async () => {
  const page = await app.openAs('owner', '/state-rules', 'phone');
  await page.getByRole('checkbox', { name: 'Wisconsin' }).check();
  await page.getByRole('button', { name: 'Save the states' }).click();
  await page.getByText('The states were saved.').waitFor();
  await page.getByText('no rule was found: policy of the firm').first().waitFor();
  await page.getByText('from memory, to be read in the source').first().waitFor();
});

it('what an attorney asks for: words of mail that are locked, a letter on paper, and everything of a job in one file', async () => {
  const { jobId, visitId } = await siteJob(app, { startsAt: new Date(app.clock.now.getTime() - 1_800_000) });
  const opened = { id: randomUUID(), visitId, items: [], systems: [], acknowledged: [] };
  expect(await app.runner.run(openRecord, opened, { actor: as('anna') })).toMatchObject({ ok: true });
  const owner = await app.openAs('owner', '/mail/wordings');
  const pdf = async (page: typeof owner, name: RegExp | string) => {
    const answer = await page.request.get(new URL((await page.getByRole('link', { name }).first().getAttribute('href'))!, page.url()).href);
    expect([answer.status(), answer.headers()['content-type']]).toEqual([200, 'application/pdf']);
    return flat((await readPdf(await answer.body())).pages.join(' '));
  };
  await owner.getByLabel('Mail', { exact: true }).selectOption('callback_acknowledgement');
  await owner.getByLabel('Attorney who reviewed these words').fill('A. Counsel');
  await owner.getByLabel('Reviewed on').fill('2026-05-01');
  await owner.getByLabel('Subject').fill('We have your message');
  await owner.getByRole('button', { name: 'Save the wording' }).click();
  await owner.getByText('Locked: reviewed by A. Counsel on').waitFor();
  await expectAccessible(owner);

  const office = await app.openAs('office', '/mail/wordings');
  await office.getByLabel('Mail', { exact: true }).selectOption('callback_acknowledgement');
  await office.getByLabel('Subject').fill('Other words');
  await office.getByRole('button', { name: 'Save the wording' }).click();
  await office
    .getByText(/reviewed/)
    .nth(1)
    .waitFor();
  expect(await office.getByLabel('Subject').inputValue()).toBe('Other words');

  const callback = randomUUID();
  const said = { place: 'north slope', remedySought: '', words: 'Water came in at the chimney.' };
  const taken = await app.runner.run(
    receiveCallback,
    { id: callback, jobId, speaker: 'tenant', kind: 'missed', safety: false, system: 'roof', ...said },
    { actor: as('office') },
  );
  expect(taken.ok, JSON.stringify(taken)).toBe(true);
  await office.goto(new URL(`/callbacks/${callback}`, office.url()).href);
  await office.getByRole('button', { name: 'Write a letter' }).click();
  await office.getByRole('button', { name: 'Write it for paper' }).click();
  await office.locator('details', { hasText: 'As a PDF' }).locator('summary').click();
  await office.getByRole('link', { name: 'As a PDF' }).waitFor();
  expect(await pdf(office, 'As a PDF')).toContain('admission of responsibility');

  await owner.goto(new URL(`/jobs/${jobId}`, owner.url()).href);
  await owner.getByRole('button', { name: 'Make a file of this job' }).click();
  await owner.getByRole('button', { name: 'Make the file' }).click();
  await owner.getByLabel('Made for').fill('A. Counsel');
  await owner.getByLabel('Why, and what was asked for').fill('Subpoena of May 12, everything of the job');
  await owner.getByRole('button', { name: 'Make the file' }).click();
  await owner.getByText(/things held back/).click();
  await owner.getByText('Private links in mails').waitFor();
  await expectAccessible(owner);
  const file = await pdf(owner, /pages, for A\. Counsel/);
  for (const part of ["For the attorney's review", 'Water came in at the chimney.', 'Page 2 of']) expect(file).toContain(part);
});
