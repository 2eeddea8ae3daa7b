// What a phone keeps, read from its stores; and the presses that tests of the site record repeat on it.
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { MemberRecord } from '@backsight/contract/sitework';
import type { Phone } from './phone.ts';

/** Everything in one of the phone's stores. */
export const store = <T>(page: Page, name: string): Promise<T[]> =>
  page.evaluate(
    (of) =>
      new Promise<T[]>((done) => {
        const opening = indexedDB.open('backsight');
        opening.addEventListener('success', () => {
          const all = opening.result.transaction(of).objectStore(of).getAll();
          all.addEventListener('success', () => {
            opening.result.close();
            done(all.result);
          });
        });
      }),
    name,
  );

/** A reply as the phone keeps it. */
export const kept = async (page: Page, begins: string): Promise<unknown> =>
  (await store<{ name: string; data: unknown }>(page, 'replies')).find(({ name }) => name.startsWith(begins))?.data;

type Told = { id: string; what: { kind: string } };
export const outbox = (page: Page): Promise<Told[]> => store<Told>(page, 'outbox');
/** What stands in the record as a phone has it. */
export const standingOn = async (page: Page): Promise<string[]> => {
  const { entries, acts } = (await kept(page, '["record"')) as MemberRecord;
  return [...entries, ...acts].map(({ id }) => id).toSorted();
};

/** Goes to a step by the list of all steps. */
export async function goTo(page: Page, title: string): Promise<void> {
  const row = page.getByRole('button', { name: title }).first();
  if (!(await row.isVisible())) await page.getByText('All steps').click();
  await row.click();
  await page.getByRole('heading', { name: title, level: 2 }).waitFor();
}
const counted = async (page: Page): Promise<number> =>
  Number(/^(\d+) of/.exec((await page.getByText(/^\d+ of \d+ recorded$/).textContent())!)![1]);
export const until = async (page: Page, count: number): Promise<void> =>
  page.getByText(new RegExp(`^${count} of \\d+ recorded$`)).waitFor();

/** Records that a step's thing is not there, looked at by the writer or by the partner. */
export async function noneHere(page: Page, by?: string): Promise<void> {
  const before = await counted(page);
  if (by) await page.getByRole('group', { name: 'Looked at by' }).getByText(by).click();
  await page.getByRole('button', { name: 'None at this property' }).click();
  await until(page, before + 1);
}
export const addNote = async (page: Page, text: string): Promise<void> => {
  await page.getByText('Add a note').click();
  await page.getByLabel('Note (not needed)').fill(text);
};

/** On the page of the end: signs off, ends the visit. */
export async function signsAndEnds(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'End and seal' }).click();
  await page.getByRole('button', { name: 'I sign off: it is as I saw it' }).click();
  await page.getByText(/ to .*, signed off$/).waitFor();
  await page.getByRole('button', { name: 'End the visit' }).click();
  await page.getByRole('dialog').getByRole('button', { name: 'End the visit' }).click();
  await page.getByText('The visit ended: complete. Kept on this phone.').waitFor();
}

/** The phone has written down what was typed: a moment after the last letter. */
export const isKept = (page: Page, text: string): Promise<void> =>
  expect.poll(async () => JSON.stringify(await store(page, 'drafts'))).toContain(text);

/** On the page of the start: a name that is given to a thing stands there again when the browser was killed. */
export async function outlivesAKill(phone: Phone): Promise<void> {
  const address = new URL(phone.page.url()).pathname;
  const name = () => phone.page.locator('details', { hasText: 'What is here' }).getByRole('textbox').first();
  await phone.page.getByText('What is here').click();
  await name().fill('upstairs, at the stairs');
  await isKept(phone.page, 'upstairs, at the stairs');
  await phone.kill();
  await phone.open(address);
  await phone.page.getByText('What is here').click();
  expect(await name().inputValue()).toBe('upstairs, at the stairs');
}

/** Where danger is looked for before anybody goes there. */
const GATED = ['roof', 'attic', 'crawl_space', 'structure', 'insulation'];

/** Titles of steps that stand on a page of their own, are done once for the house, and not checked by the partner. */
export async function loneSteps(page: Page): Promise<string[]> {
  const { steps } = (await kept(page, '["record"')) as MemberRecord;
  return steps
    .filter(
      (s) => s.style === 'read_then_do' && !s.partnerCheck && s.itemId === null && s.evidence.kind !== 'note' && !GATED.includes(s.system),
    )
    .map(({ title }) => title);
}

const TARGETS = 'main :is(button, label:has(input[type="radio"]), label:has(input[type="checkbox"]))';
/** What is to be pressed with a glove on and is lower than 48 px. */
export const lowTargets = (page: Page): Promise<string[]> =>
  page.locator(TARGETS).evaluateAll((all) =>
    all.flatMap((one) => {
      const { height } = one.getBoundingClientRect();
      return height > 0 && height < 47.99 ? [`${one.textContent} ${height}`] : [];
    }),
  );

/** How to get in, as the phone keeps it for the day. */
export const wayInOf = async (page: Page): Promise<object | undefined> =>
  (await store<{ name: string }>(page, 'replies')).find(({ name }) => name.includes('way-in'));
