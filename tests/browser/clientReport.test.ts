// A client reports a problem on a phone by the private link, loses the connection, sends it with a photo; the office sees it, photo and all.
import { expect, it } from 'vitest';
import { as } from '../support/cast.ts';
import { picture } from '../support/pictures.ts';
import { siteJob } from '../support/siteJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';
import { sendReportLink } from '@backsight/usecases/agreements/sendReportLink';

const app = staffApp();
withStarter(app);

it('is reported on a phone without a connection, then with a photo, and seen by the office', async () => {
  const { jobId, visitId, clientId } = await siteJob(app, { startsAt: new Date(app.clock.now.getTime() - 86_400_000) });
  await app.database.read.rows(`UPDATE visit SET state = 'done' WHERE id = $1::uuid`, [visitId]);
  await app.runner.run(sendReportLink, { jobId, partyId: clientId, publicUrl: '' }, { actor: as('office') });
  const [mail] = await app.database.read.rows<{ body: string }>(
    `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND kind = 'report_link'`,
    [jobId],
  );
  const page = await app.open(/\/client\/[\w-]{43}\/report/.exec(mail!.body)![0], 'phone');
  const shot = async (name: string): Promise<void> =>
    void (process.env.SCREENS && (await page.screenshot({ path: `${process.env.SCREENS}/${name}.png`, fullPage: true })));
  await page.getByRole('heading', { name: 'Report a problem or ask a question' }).waitFor();
  expect(await page.getByText('Do not touch any switch').isVisible()).toBe(false);
  await page.getByLabel('Gas: smell of gas').check();
  await page.getByText('Do not touch any switch').waitFor();
  await page.getByLabel('Which part of the house?').selectOption('plumbing');
  await page.getByLabel('What is it? Please tell us').fill('The water heater hisses and smells of gas.');
  await page.getByRole('button', { name: 'Send' }).click();
  await page.getByRole('alert').getByText('Where in the house').waitFor();
  await page.getByLabel('Where in the house?').fill('basement');
  const image = await picture('jpeg', 3, 400, 300);
  await page.getByLabel('Photos').setInputFiles([
    { name: 'heater.jpg', mimeType: 'image/jpeg', buffer: image },
    { name: 'notes.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('these are words and no picture at all') },
  ]);
  await expectAccessible(page);
  await shot('client-report-390');
  await page.context().setOffline(true);
  await page.getByRole('button', { name: 'Send' }).click();
  await page.getByText('What you typed stays on this phone').waitFor();
  await page.context().setOffline(false);
  await page.reload();
  await page.getByText('What you typed before is still here').waitFor();
  expect(await page.getByLabel('Where in the house?').inputValue()).toBe('basement');
  await page.getByText('Do not touch any switch').waitFor();
  await page.getByLabel('Photos').setInputFiles([
    { name: 'heater.jpg', mimeType: 'image/jpeg', buffer: image },
    { name: 'notes.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('these are words and no picture at all') },
  ]);
  await page.getByRole('button', { name: 'Send' }).click();
  await page.getByText('Not every photo was taken').waitFor();
  await shot('client-report-refused-390');
  await page.getByRole('button', { name: 'Send' }).click();
  await page.getByText('We have it. Its number is').waitFor();
  expect(await page.getByLabel('What is it? Please tell us').inputValue()).toBe('');
  await expectAccessible(page);
  await shot('client-report-sent-390');

  const [made] = await app.database.read.rows<{ id: string }>(`SELECT id::text AS id FROM callback WHERE job_id = $1::uuid`, [jobId]);
  const office = await app.openAs('office', `/callbacks/${made!.id}`);
  await office.getByText('The water heater hisses').waitFor();
  await office.getByText('by the client’s private link').or(office.getByText("by the client's private link")).waitFor();
  await expect
    .poll(() => office.getByRole('img', { name: 'Photo heater.jpg' }).evaluate((img: HTMLImageElement) => img.naturalWidth))
    .toBeGreaterThan(0);
  if (process.env.SCREENS) await office.screenshot({ path: `${process.env.SCREENS}/callback-came-1280.png`, fullPage: true });
  const owner = await app.openAs('owner', '/safety-advice');
  await owner.getByText('Not yet approved').first().waitFor();
  await owner.getByRole('button', { name: 'Edit and approve: Gas' }).click();
  await owner.getByRole('textbox', { name: 'Words' }).fill('Leave the house now. Touch no switch. Call 911 from outside.');
  await owner.getByRole('button', { name: 'Approve these words' }).click();
  await owner.getByText('Approved by Olive Owner').waitFor();
  await expectAccessible(owner);
  if (process.env.SCREENS) await owner.screenshot({ path: `${process.env.SCREENS}/advice-1280.png`, fullPage: true });
  await office.goto(`${new URL(office.url()).origin}/callbacks/new`);
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
  if (process.env.SCREENS) await office.screenshot({ path: `${process.env.SCREENS}/intake-1280.png`, fullPage: true });
  await office.setViewportSize({ width: 390, height: 844 });
  if (process.env.SCREENS) await office.screenshot({ path: `${process.env.SCREENS}/intake-390.png`, fullPage: true });
  await expectAccessible(office);
});
