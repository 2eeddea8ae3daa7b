// A client on a phone, by private links alone: the agreement is read and signed by drawing; weeks later a problem is reported with photos,
// through a lost connection. The office sees it, and gives in danger the advice that an owner approved.
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { issueAgreementOfJob } from '@backsight/usecases/agreements/issue';
import { sendReportLink } from '@backsight/usecases/agreements/sendReportLink';
import { as } from '../support/cast.ts';
import { wordOf } from '../support/clientLink.ts';
import { drawOn } from '../support/draw.ts';
import { inputsOf } from '../support/inputs.ts';
import { paidJob } from '../support/paidJob.ts';
import { picture } from '../support/pictures.ts';
import { siteJob } from '../support/siteJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);
const day = inputsOf('client');
const shot = async (page: Page, name: string): Promise<void> =>
  void (process.env.SCREENS && (await page.screenshot({ path: `${process.env.SCREENS}/${name}.png`, fullPage: true })));

/** The newest mail about a job that holds such a link, opened as the client does. */
async function follows(jobId: string, link: RegExp): Promise<Page> {
  const mails = await app.database.read.rows<{ body: string }>(
    `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid ORDER BY id DESC`,
    [jobId],
  );
  const page = await app.open(mails.map(({ body }) => link.exec(body)?.[0]).find(Boolean)!, 'phone');
  await day.watch(page.context());
  return page;
}

describe('a client who signs', () => {
  it('reads, draws the name, and is told at once that the word of the PDF is another', async () => {
    const { jobId } = await paidJob(app);
    await app.runner.run(issueAgreementOfJob, { jobId, publicUrl: 'http://backsight.example' }, { actor: as('office') });
    const word = await wordOf(app.database, jobId);
    const page = await follows(jobId, /\/client\/[\w-]{43}/);
    await page.getByRole('heading', { name: 'Please read and sign your agreement' }).waitFor();
    expect(await page.getByText('Report a problem').count(), 'before the visit').toBe(0);
    await expectAccessible(page);
    const because = 'two things agreed to, name and word, one stroke of the finger, and one mistake';
    await day.task('the agreement signed, with one mistake', { atMost: 9, because }, async () => {
      await page.getByLabel('I have read the agreement above.').check();
      await page.getByLabel('I agree to sign').check();
      await page.getByLabel('Your full name').fill('Paula Prior');
      await page.getByLabel('The word in the PDF').fill('nonsense');
      await page.reload(); // what was typed and ticked outlives it
      expect(await page.getByLabel('Your full name').inputValue()).toBe('Paula Prior');
      expect(await page.getByLabel('I agree to sign').isChecked()).toBe(true);
      await page.getByLabel('drawing with a finger').check();
      await drawOn(page);
      await page.getByText('Your signature is drawn.').waitFor();
      await page.getByRole('button', { name: 'Sign the agreement' }).click();
      await page.getByRole('alert').getByText('not the one in the PDF').waitFor();
      await page.getByText('Your signature is drawn.').waitFor();
      await page.getByLabel('The word in the PDF').fill(word);
      await page.getByRole('button', { name: 'Sign the agreement' }).press('Enter');
      await page.getByText('Signed by Paula Prior').waitFor();
    });
    await page.getByRole('img', { name: 'Drawn signature of Paula Prior' }).waitFor();
    await expectAccessible(page);
    await shot(page, 'client-signed-390');
    const rows = await app.database.read.rows(
      `SELECT g.method, g.format_word AS word, g.strokes_text_id IS NOT NULL AS drawn
       FROM signature g JOIN signer s ON s.id = g.signer_id JOIN agreement a ON a.id = s.agreement_id WHERE a.job_id = $1::uuid`,
      [jobId],
    );
    expect(rows).toEqual([{ method: 'link', word, drawn: true }]);
  });
});

describe('a client who reports a problem', () => {
  let jobId: string;
  let page: Page;
  beforeAll(async () => {
    const job = await siteJob(app, { startsAt: new Date(app.clock.now.getTime() - 86_400_000) });
    ({ jobId } = job);
    await app.database.read.rows(`UPDATE visit SET state = 'done' WHERE id = $1::uuid`, [job.visitId]);
    await app.runner.run(sendReportLink, { jobId, partyId: job.clientId, publicUrl: '' }, { actor: as('office') });
    page = await follows(jobId, /\/client\/[\w-]{43}\/report/);
  });

  /** One that is a picture, and one that only says so. */
  const choosePhotos = async (): Promise<void> =>
    page.getByLabel('Photos').setInputFiles([
      { name: 'heater.jpg', mimeType: 'image/jpeg', buffer: await picture('jpeg', 3, 400, 300) },
      { name: 'notes.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('these are words and no picture at all') },
    ]);

  it('writes it on the phone, loses the connection and nothing else, and sends it with a photo', async () => {
    await page.getByRole('heading', { name: 'Report a problem or ask a question' }).waitFor();
    expect(await page.getByText('Do not touch any switch').isVisible()).toBe(false);
    const because = 'the danger, three answers, photos twice, since a lost connection cannot keep them, and sending';
    await day.task('a problem reported, over a lost connection', { atMost: 14, because }, async () => {
      await page.getByLabel('Gas: smell of gas').check();
      await page.getByText('Do not touch any switch').waitFor();
      await page.getByLabel('Which part of the house?').selectOption('plumbing');
      await page.getByLabel('What is it? Please tell us').fill('The water heater hisses and smells of gas.');
      await page.getByRole('button', { name: 'Send' }).click();
      await page.getByRole('alert').getByText('Where in the house').waitFor();
      await page.getByLabel('Where in the house?').fill('basement');
      await choosePhotos();
      await page.context().setOffline(true);
      await page.getByRole('button', { name: 'Send' }).click();
      await page.getByText('What you typed stays on this phone').waitFor();
      await page.context().setOffline(false);
      await page.reload();
      await page.getByText('What you typed before is still here').waitFor();
      expect(await page.getByLabel('Where in the house?').inputValue()).toBe('basement');
      await page.getByText('Do not touch any switch').waitFor();
      await choosePhotos();
      await page.getByRole('button', { name: 'Send' }).click();
      await page.getByText('Not every photo was taken').waitFor();
      await shot(page, 'client-report-refused-390');
      await page.getByRole('button', { name: 'Send' }).click();
      await page.getByText('We have it. Its number is').waitFor();
      await page.getByText('no mail with it is sent to you').waitFor(); // without a mail server
    });
    expect(await page.getByLabel('What is it? Please tell us').inputValue()).toBe('');
    await expectAccessible(page);
    await shot(page, 'client-report-sent-390');
  });

  it('is seen by the office, photo and all', async () => {
    const [made] = await app.database.read.rows<{ id: string }>(`SELECT id::text AS id FROM callback WHERE job_id = $1::uuid`, [jobId]);
    const office = await app.openAs('office', `/callbacks/${made!.id}`);
    await office.getByText('The water heater hisses').waitFor();
    await office.getByText('by the client’s private link').or(office.getByText("by the client's private link")).waitFor();
    await expect
      .poll(() => office.getByRole('img', { name: 'Photo heater.jpg' }).evaluate((img: HTMLImageElement) => img.naturalWidth))
      .toBeGreaterThan(0);
    await shot(office, 'callback-came-1280');
  });

  it('is given the advice in danger that an owner approved, also by the office on the phone', async () => {
    const owner = await app.openAs('owner', '/safety-advice');
    await owner.getByText('Not yet approved').first().waitFor();
    await owner.getByRole('button', { name: 'Edit and approve: Gas' }).click();
    await owner.getByRole('textbox', { name: 'Words' }).fill('Leave the house now. Touch no switch. Call 911 from outside.');
    await owner.getByRole('button', { name: 'Approve these words' }).click();
    await owner.getByText('Approved by Olive Owner').waitFor();
    const office = await app.openAs('office', '/callbacks/new');
    await office.getByLabel('Which job is it about?').fill('Alder');
    await office
      .getByRole('button', { name: /^Job \d+$/ })
      .first()
      .click();
    await office.getByLabel('Somebody may be in danger').check();
    await office.getByText('call whoever is on call: 920-555-0101').waitFor();
    await office.getByLabel('Gas: smell of gas').check();
    await office.getByText('Touch no switch').waitFor();
    await office.getByLabel('How it came').selectOption('mail');
    await office.getByLabel(/told once more/).waitFor();
    await expectAccessible(office);
    await office.getByLabel('Kind').selectOption('demand_or_suit');
    await office.getByLabel('Which person').selectOption('outside');
    expect(await office.getByLabel('Only an owner sees this file').isChecked()).toBe(true);
  });
});
