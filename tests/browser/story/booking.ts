// Acts of the office and the client in the story: booking by keyboard, signing through the private link, paying.
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { CAST, type CastName } from '../../support/cast.ts';
import { wordOf } from '../../support/clientLink.ts';
import { tabTo } from '../../support/keyboard.ts';
import type { Stage } from './stage.ts';

export type House = {
  caller: string;
  street: string;
  town: string;
  from?: string;
  /** Who is to go; without, the best start is taken. */
  pair?: [string, string];
  facts: readonly (readonly [label: RegExp, value: string])[];
};
export type Booked = { jobId: string; visitId: string; startsAt: Date; pair: string[] };

const type = async (page: Page, name: RegExp, text: string): Promise<void> => {
  await tabTo(page, name);
  await page.keyboard.type(text);
};

/** Fills the page of booking with the keyboard alone, up to the choice of a start. */
async function fillByKeyboard(page: Page, house: House): Promise<void> {
  await page.getByRole('heading', { name: 'Book a job' }).waitFor();
  await type(page, /^Name/, house.caller);
  await type(page, /^Phone/, '920-555-0171');
  await type(page, /^E-mail/, `${house.caller.split(' ')[0]!.toLowerCase()}@client.example`);
  await type(page, /^Street address/, house.street);
  await type(page, /^Town/, house.town);
  await type(page, /^Living area/, '2150');
  await type(page, /^Year built/, '1986');
  if (house.facts.length > 0) {
    await tabTo(page, /^More about the house/);
    await page.keyboard.press('Enter');
  }
  for (const [label, value] of house.facts) {
    await tabTo(page, label);
    await (value === 'yes' ? page.keyboard.press('Space') : page.keyboard.type(value));
  }
}

/** The starts that are shown may still be those of the answer before. */
async function chooseBest(page: Page, from: string): Promise<void> {
  const best = page.getByRole('radio', { name: / first, / }).first();
  await expect.poll(async () => (await best.getAttribute('value'))! > from).toBe(true);
  const chosen = async (): Promise<boolean> => {
    await best.focus();
    await page.keyboard.press('Space');
    return best.isChecked();
  };
  await expect.poll(chosen).toBe(true);
}

/** Two people who are asked for by name, at their best start. */
async function chooseTwo(page: Page, [one, other]: [string, string]): Promise<void> {
  await page.getByText('Why not two other people?').click();
  await page.getByLabel('One', { exact: true }).selectOption({ label: one });
  await page.getByLabel('The other', { exact: true }).selectOption({ label: other });
  await page
    .getByRole('button', { name: /^Take / })
    .first()
    .focus();
  await page.keyboard.press('Enter');
}

/** Books a house: held with a price, then confirmed. */
export async function book(stage: Stage, house: House): Promise<Booked> {
  const page = await stage.as('office', '/book');
  await fillByKeyboard(page, house);
  if (house.from) await page.getByLabel('From', { exact: true }).fill(house.from);
  await (house.pair ? chooseTwo(page, house.pair) : chooseBest(page, house.from ?? ''));
  await tabTo(page, /Hold this time for/);
  await stage.look(page, 'book');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Confirm the booking' }).click();
  await page.getByText(/signed by 0 of 1/).waitFor();
  await page.getByRole('button', { name: 'Note: access agreed' }).click();
  await page.getByLabel('Who said so').fill(house.caller);
  await page.getByLabel('What was said (no codes here)').fill('The owner opens');
  await page.getByRole('button', { name: 'Save' }).click();
  await page
    .getByText(/settled/)
    .first()
    .waitFor();
  await stage.look(page, 'job-booked');
  return bookedAt(page, page.url().split('/').at(-1)!);
}

async function bookedAt(page: Page, jobId: string): Promise<Booked> {
  const job = (await page.evaluate((id) => fetch(`/api/jobs/${id}`).then((reply) => reply.json()), jobId)) as {
    visits: { id: string; startsAt: string; pair: { name: string }[] }[];
  };
  const visit = job.visits[0]!;
  return { jobId, visitId: visit.id, startsAt: new Date(visit.startsAt), pair: visit.pair.map(({ name }) => name) };
}

/** The client opens the link of the mail that waits in the outbox, and signs. */
export async function sign(stage: Stage, { jobId }: Booked, name: string): Promise<void> {
  const mails = await stage.database.read.rows<{ body: string }>(
    'SELECT body FROM outgoing_mail WHERE about_id = $1::uuid ORDER BY id DESC',
    [jobId],
  );
  const link = mails.map(({ body }) => /\/client\/[\w-]{43}/.exec(body)?.[0]).find(Boolean);
  const page = await stage.visitor(link!);
  await page.getByRole('heading', { name: 'Please read and sign your agreement' }).waitFor();
  await stage.look(page, 'client-reads');
  await page.getByLabel('I have read').check();
  await page.getByLabel('I agree to sign').check();
  await page.getByLabel('The word in the PDF').fill(await wordOf(stage.database, jobId));
  await page.getByLabel('Your full name').fill(name);
  await page.keyboard.press('Enter');
  await page.getByText(`Signed by ${name}`).waitFor();
  await page.context().close();
}

/** The office records that the whole fee was paid by check. */
export async function pay(stage: Stage, { jobId }: Booked): Promise<void> {
  const page = await stage.as('office', `/jobs/${jobId}`);
  await page.getByText(/signed by 1 of 1/).waitFor();
  await page.getByRole('link', { name: /of \$[\d,.]+ paid/ }).click();
  await page.getByRole('button', { name: 'Record a payment' }).click();
  const due = await page.evaluate(
    (id) =>
      fetch(`/api/jobs/${id}`)
        .then((reply) => reply.json())
        .then((job: { invoice: { totalCents: number } }) => job.invoice.totalCents),
    jobId,
  );
  await page.getByLabel('Amount').fill(String(due / 100));
  await page.getByLabel('Number of the check').fill('2214');
  await page.getByRole('button', { name: 'Record the payment' }).click();
  await page.getByText('paid in full').first().waitFor();
  expect(due).toBeGreaterThan(30_000);
  await stage.look(page, 'invoice-paid');
}

/** Whether `who` is offered with a colleague for what the desk asks now: asked about that pair, for the best hundred starts of all may be other people's. */
export async function isOffered(page: Page, who: CastName): Promise<boolean> {
  const colleague = (['anna', 'ben', 'lead'] as const).find((one) => one !== who)!;
  const asking = page.waitForRequest((request) => request.url().endsWith('/api/starts'));
  await page.reload();
  const asked = (await asking).postDataJSON() as Record<string, unknown>;
  await page.getByRole('radio').first().waitFor();
  const starts = (await page.evaluate(
    (body) =>
      fetch('/api/starts', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }).then((reply) =>
        reply.json(),
      ),
    { ...asked, pair: [CAST[who].id, CAST[colleague].id] },
  )) as { wanted: { options: unknown[] } };
  return starts.wanted.options.length > 0;
}
