// A letter in the browser: drafted from the file, edited, looked over and sent; the closing letter; and the client's one press behind its link.
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { openRecord } from '@backsight/usecases/sitework/openRecord';
import { violationsOn, WCAG_22_AA } from '../support/axe.ts';
import { launch } from '../support/browser.ts';
import { as, CAST, withCast, type CastName } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { withSite } from '../support/site.ts';
import { siteJob, type SiteJob } from '../support/siteJob.ts';
import { withStarter } from '../support/starter.ts';

const service = testService();
withCast(service);
withStarter(service);
const site = withSite(service);
let browser: Browser;
let job: SiteJob;
const pictures = process.env.SCREENS;

beforeAll(async () => {
  service.clock.now = new Date();
  job = await siteJob(service, { startsAt: new Date(service.clock.now.getTime() - 1_800_000) });
  const opened = await service.runner.run(
    openRecord,
    { id: randomUUID(), visitId: job.visitId, items: [], systems: [], acknowledged: [] },
    { actor: as('anna') },
  );
  expect(opened.ok, JSON.stringify(opened)).toBe(true);
  browser = await launch();
});
afterAll(() => browser?.close());

async function openAs(who: CastName | null): Promise<Page> {
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
  if (who) await site.signIn(page, who);
  return page;
}
async function post(page: Page, path: string, data: object = {}): Promise<void> {
  const answer = await page.request.post(`${site.url}/api/${path}`, { data, headers: { 'idempotency-key': randomUUID() } });
  expect(answer.status(), `${path} ${await answer.text()}`).toBe(201);
}
async function shot(page: Page, name: string): Promise<void> {
  if (!pictures) return;
  for (const [width, height] of [
    [390, 844],
    [1280, 900],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.screenshot({ path: `${pictures}/${name}-${width}.png`, fullPage: true });
  }
}

it('is edited, looked over and sent; the client answers with one press', async () => {
  const office = await openAs('office');
  const lead = await openAs('lead2');
  const id = randomUUID();
  await post(office, 'callbacks', {
    ...{
      id,
      jobId: job.jobId,
      partyId: job.clientId,
      speaker: 'client',
      kind: 'missed',
      safety: false,
      system: 'electrical',
      place: 'garage',
    },
    ...{ remedySought: 'the thawed food', words: 'The freezer in the garage thawed: its outlet is dead.' },
  });
  await post(office, `callbacks/${id}/acknowledge`);
  await post(lead, `callbacks/${id}/conclusion`, { conclusionId: randomUUID(), cause: 'nothing_shown', words: 'Nothing was found.' });
  await office.goto(`${site.url}/callbacks/${id}`);
  await office.getByRole('button', { name: 'Write a letter' }).click();
  const body = office.getByRole('textbox', { name: /^Letter/ });
  const drafted = await body.inputValue();
  expect(drafted).toMatch(/^Dear Paula Prior,\n\nWe write this without admission of responsibility\.[^]*\[what was decided, and why\]/);
  await office.getByRole('button', { name: 'Send the letter' }).click();
  await office.getByRole('alert').getByText('Still to be filled in: [what was decided, and why].').waitFor();
  expect(await body.inputValue()).toBe(drafted);
  await body.fill(drafted.replace('[what was decided, and why]', 'We found nothing that we should have said.'));
  await office.getByRole('button', { name: 'Look it over' }).click();
  await office.getByText(/^Plain: it asks for about \d years of school\.$/).waitFor();
  await shot(office, 'letter-desk');
  await post(lead, `callbacks/${id}/look-into`, { severity: 'loss', atOnce: false, assigneeId: CAST.lead2.id });
  await office.getByRole('button', { name: 'Send the letter' }).click();
  await office.getByRole('alert').getByText('Luis Lead changed this callback meanwhile').waitFor();
  expect(await body.inputValue()).toContain('We found nothing that we should have said.');
  await office.getByText('looks into it. Assessed as').waitFor();
  await office.getByRole('button', { name: 'Send the letter' }).click();
  await office.getByText('The letter goes out by mail.').waitFor(); // of the letters listed one says already that it went to her
  await office.getByText('to Paula Prior, by mail').first().waitFor();

  await post(lead, `callbacks/${id}/close`);
  await office.reload();
  await office.getByRole('group', { name: 'Next' }).getByText('Write the closing letter').waitFor();
  await office.getByRole('button', { name: 'Do this now' }).click();
  await office.getByRole('button', { name: 'Send the letter' }).click();
  await office.getByText('Closed: your report of a problem').first().waitFor();
  await shot(office, 'callback-closed');

  const [mail] = await service.database.read.rows<{ body: string }>(
    `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND kind = 'callback_closing'`,
    [id],
  );
  await answers(/\/client\/after\/[\w-]{43}/.exec(mail!.body)![0]);
});

/** The client, without any sign-in. */
async function answers(link: string): Promise<void> {
  const client = await openAs(null);
  await client.goto(site.url + link);
  await shot(client, 'client-before');
  await client.getByRole('button', { name: 'Well', exact: true }).click();
  await client.getByText('You answered: Well.').waitFor();
  expect((await violationsOn(client, { tags: WCAG_22_AA })).map(({ id: rule }) => rule)).toEqual([]);
  await shot(client, 'client-after');
  await client.getByRole('link', { name: 'How we handle a complaint' }).click();
  await client.getByRole('heading', { name: 'If you do not agree' }).waitFor();
  await shot(client, 'complaints');
  expect(await client.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
}
