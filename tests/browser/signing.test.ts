// A client signs by drawing on a phone; another signs on the pair's phone while there is no signal.
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { wordOf } from '../support/clientLink.ts';
import { drawOn } from '../support/draw.ts';
import { paidJob } from '../support/paidJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);

async function issued(): Promise<{ jobId: string; visitId: string }> {
  const job = await paidJob(app);
  const desk = await app.openAs('office', `/jobs/${job.jobId}/agreement`);
  await desk.getByRole('button', { name: 'Issue the agreement' }).click();
  await desk.getByRole('heading', { name: 'Paula Prior' }).waitFor();
  return job;
}

const signature = async (jobId: string) =>
  (
    await app.database.read.rows<{ method: string; word: string; drawn: boolean; happened: Date; recorded: Date }>(
      `SELECT g.method, g.format_word AS word, g.strokes_text_id IS NOT NULL AS drawn, g.happened_at AS happened, g.recorded_at AS recorded
       FROM signature g JOIN signer s ON s.id = g.signer_id JOIN agreement a ON a.id = s.agreement_id WHERE a.job_id = $1::uuid`,
      [jobId],
    )
  )[0];

const shot = async (page: Page, name: string): Promise<void> => {
  if (process.env.SCREENS) await page.screenshot({ path: `${process.env.SCREENS}/${name}.png`, fullPage: true });
};

it('is drawn by the client on the private page at 390 pixels, with keyboard and reader in mind', async () => {
  const { jobId } = await issued();
  const [mail] = await app.database.read.rows<{ body: string }>(
    `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND subject LIKE 'Agreement for%'`,
    [jobId],
  );
  const page = await app.open(/\/client\/[\w-]{43}/.exec(mail!.body)![0], 'phone');
  await page.getByRole('heading', { name: 'Please read and sign your agreement' }).waitFor();
  await expectAccessible(page);
  await page.getByLabel('I have read the agreement above.').check();
  await page.getByLabel('I agree to sign').check();
  await page.getByLabel('Your full name').fill('Paula Prior');
  await page.getByLabel('The word in the PDF').fill('nonsense');
  await page.getByLabel('drawing with a finger').check();
  await drawOn(page);
  await page.getByText('Your signature is drawn.').waitFor();
  await shot(page, 'client-sign-390');
  await page.getByRole('button', { name: 'Sign the agreement' }).click();
  await page.getByRole('alert').getByText('not the one in the PDF').waitFor();
  await page.getByText('Your signature is drawn.').waitFor();
  const word = await wordOf(app.database, jobId);
  await page.getByLabel('The word in the PDF').fill(word);
  await page.getByRole('button', { name: 'Sign the agreement' }).press('Enter');
  await page.getByText('Signed by Paula Prior').waitFor();
  await page.getByRole('img', { name: 'Drawn signature of Paula Prior' }).waitFor();
  await expectAccessible(page);
  await shot(page, 'client-signed-390');
  expect(await signature(jobId)).toMatchObject({ method: 'link', word, drawn: true });
});

it("is taken on the pair's phone without signal, opens the gate once sent, with the time at which it was given", async () => {
  const { jobId, visitId } = await issued();
  const page = await app.openAs('anna', `/visits/${visitId}/start`, 'phone');
  await page.getByRole('link', { name: 'Let the client sign here' }).click();
  await page.getByRole('link', { name: 'Sign on this device' }).waitFor();
  await page.context().setOffline(true);
  await page.getByRole('link', { name: 'Sign on this device' }).click();
  const word = await wordOf(app.database, jobId);
  await page.getByLabel('I have read the agreement above').check();
  await page.getByLabel('The word at the end of the agreement').fill(word);
  await page.getByLabel('I agree to sign').check();
  await page.getByLabel('Full name').fill('Paula Prior');
  await page.getByRole('button', { name: 'Sign the agreement' }).click();
  await page.getByRole('alert').getByText('Please draw your signature').first().waitFor();
  await drawOn(page);
  await page.getByText('The signature is drawn.').waitFor();
  await expectAccessible(page);
  await shot(page, 'door-sign-390');
  await page.getByRole('button', { name: 'Sign the agreement' }).click();
  await page.getByRole('region', { name: 'Signatures on this phone' }).waitFor();
  await shot(page, 'door-signed-offline-390');
  expect(await signature(jobId)).toBeUndefined();
  await page.context().setOffline(false);
  await expect.poll(() => signature(jobId), { timeout: 20_000 }).toMatchObject({ method: 'on_site_device', drawn: true });
  const { happened, recorded } = (await signature(jobId))!;
  expect(recorded.getTime()).toBeGreaterThanOrEqual(happened.getTime());
  await page.getByRole('region', { name: 'Signatures on this phone' }).waitFor({ state: 'detached' });
  await page.goto(page.url().replace(/\/jobs\/.*/, `/visits/${visitId}/start`));
  await page.getByText('Agreement and fee are in order.').waitFor();
});
