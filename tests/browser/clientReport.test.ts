// A client reports a problem on a phone by the private link, loses the connection, sends it with a photo; the office sees it, photo and all.
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { as } from '../support/cast.ts';
import { picture } from '../support/pictures.ts';
import { siteJob } from '../support/siteJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';
import { sendReportLink } from '@backsight/usecases/agreements/sendReportLink';

const app = staffApp();
withStarter(app);
const shot = async (page: Page, name: string): Promise<void> =>
  void (process.env.SCREENS && (await page.screenshot({ path: `${process.env.SCREENS}/${name}.png`, fullPage: true })));

let jobId: string;
let page: Page;
beforeAll(async () => {
  const job = await siteJob(app, { startsAt: new Date(app.clock.now.getTime() - 86_400_000) });
  ({ jobId } = job);
  await app.database.read.rows(`UPDATE visit SET state = 'done' WHERE id = $1::uuid`, [job.visitId]);
  await app.runner.run(sendReportLink, { jobId, partyId: job.clientId, publicUrl: '' }, { actor: as('office') });
  const [mail] = await app.database.read.rows<{ body: string }>(
    `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND kind = 'report_link'`,
    [jobId],
  );
  page = await app.open(/\/client\/[\w-]{43}\/report/.exec(mail!.body)![0], 'phone');
});

/** One that is a picture, and one that only says so. */
const choosePhotos = async (): Promise<void> =>
  page.getByLabel('Photos').setInputFiles([
    { name: 'heater.jpg', mimeType: 'image/jpeg', buffer: await picture('jpeg', 3, 400, 300) },
    { name: 'notes.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('these are words and no picture at all') },
  ]);

describe('a report of a client', () => {
  it('is written on a phone, outlives a lost connection, and is sent with a photo', async () => {
    await page.getByRole('heading', { name: 'Report a problem or ask a question' }).waitFor();
    expect(await page.getByText('Do not touch any switch').isVisible()).toBe(false);
    await page.getByLabel('Gas: smell of gas').check();
    await page.getByText('Do not touch any switch').waitFor();
    await page.getByLabel('Which part of the house?').selectOption('plumbing');
    await page.getByLabel('What is it? Please tell us').fill('The water heater hisses and smells of gas.');
    await page.getByRole('button', { name: 'Send' }).click();
    await page.getByRole('alert').getByText('Where in the house').waitFor();
    await page.getByLabel('Where in the house?').fill('basement');
    await choosePhotos();
    await expectAccessible(page);
    await shot(page, 'client-report-390');
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

  it('gives the advice in danger that an owner approved, also to the office on the phone', async () => {
    const owner = await app.openAs('owner', '/safety-advice');
    await owner.getByText('Not yet approved').first().waitFor();
    await owner.getByRole('button', { name: 'Edit and approve: Gas' }).click();
    await owner.getByRole('textbox', { name: 'Words' }).fill('Leave the house now. Touch no switch. Call 911 from outside.');
    await owner.getByRole('button', { name: 'Approve these words' }).click();
    await owner.getByText('Approved by Olive Owner').waitFor();
    await expectAccessible(owner);
    await shot(owner, 'advice-1280');
    const office = await app.openAs('office', '/callbacks/new');
    await office.getByLabel('Which job is it about?').fill('Alder');
    await office
      .getByRole('button', { name: /^Job \d+$/ })
      .first()
      .click();
    await office.getByLabel('Somebody may be in danger').check();
    await office.getByLabel('Gas: smell of gas').check();
    await office.getByText('Touch no switch').waitFor();
    await office.getByLabel('How it came').selectOption('mail');
    await office.getByLabel(/told once more/).waitFor();
    await shot(office, 'intake-1280');
    await office.setViewportSize({ width: 390, height: 844 });
    await shot(office, 'intake-390');
    await expectAccessible(office);
  });
});
