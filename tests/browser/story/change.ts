// Acts around the change of the procedure in the story: decided, drafted from the callback, compared, approved, acknowledged.
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Step } from '@backsight/domain/procedures/step';
import { GROUND_FAULT_STEPS_REVISED } from '../../../prisma/seed/procedures/groundFaultRevision.ts';
import { CAST, type CastName } from '../../support/cast.ts';
import { DEVICE } from './callback.ts';
import { PHONE, type Stage } from './stage.ts';

export const NEW_STEPS = GROUND_FAULT_STEPS_REVISED.map(({ title }) => title);
type Draft = { id: string; version: number; reason: string; newestId: string | null; steps: { step: Step }[] };

/** The lead decides on a revision at the callback and begins its draft there. Returns the id of the draft. */
export async function draftFromCallback(stage: Stage, callback: string): Promise<string> {
  const page = await stage.as('lead', callback);
  await page.getByRole('button', { name: 'Decide on one' }).click();
  await page.getByLabel('In one line').fill('What a ground-fault device feeds is live again before the pair moves on');
  await page.getByLabel(/^Why( \*)?$/).fill('A reset button that clicks says nothing about power downstream.');
  await page.getByLabel('Due on').fill('2026-06-05');
  await page.getByRole('button', { name: 'Decide', exact: true }).click();
  await page.getByRole('button', { name: 'Draft the revision' }).click();
  await page
    .getByLabel('Why the procedure is to change')
    .fill('Power downstream of a ground-fault device was not looked at after the reset.');
  await stage.look(page, 'draft-begun');
  await page.getByRole('button', { name: 'Begin the draft' }).click();
  await page.waitForURL(/\/procedures\/draft\//);
  await page.getByRole('heading', { name: /^Draft of Electrical/ }).waitFor();
  return page.url().split('/').at(-1)!;
}

/** The tripping step is worded anew in the form; the two counts come from the firm's written text. */
export async function writeSteps(stage: Stage, draft: string): Promise<void> {
  const page = await stage.as('lead', `/procedures/draft/${draft}`);
  const trip = GROUND_FAULT_STEPS_REVISED.find(({ key }) => key === 'ground-fault-trip-reset')!;
  await page.getByRole('button', { name: `Edit: ${DEVICE}` }).click();
  await page.getByLabel('Instruction').fill(trip.instruction);
  await page.getByLabel('Caution').fill(trip.caution!);
  await stage.look(page, 'draft-editor');
  await page.getByRole('button', { name: 'Save the draft' }).click();
  await page.getByText('The draft was saved.').waitFor();
  await putSteps(page, draft);
}

/** The whole of the changed steps where the old one stood, through the session of the page. */
async function putSteps(page: Page, draft: string): Promise<void> {
  const now = (await page.evaluate((id) => fetch(`/api/revisions/${id}`).then((reply) => reply.json()), draft)) as Draft;
  const steps = now.steps.flatMap(({ step }) => (step.key === 'ground-fault-trip-reset' ? GROUND_FAULT_STEPS_REVISED : [step]));
  const reply = await page.evaluate(
    ({ id, version, body }) =>
      fetch(`/api/revisions/${id}`, {
        method: 'PUT',
        headers: { 'content-type': 'application/json', 'if-match': `"${version}"` },
        body: JSON.stringify(body),
      }).then(async (r) => [r.status, await r.text()] as const),
    { id: draft, version: now.version, body: { reason: now.reason, basedOnId: now.newestId, steps } },
  );
  expect(reply[0], reply[1]).toBe(200);
}

/** The owner reads the comparison and approves; the wording is that of a second person. Returns until when all must have acknowledged. */
export async function approve(stage: Stage, draft: string): Promise<Date> {
  const author = await stage.as('lead', `/procedures/revision/${draft}`);
  await author.getByText('You wrote this: somebody else approves it.').waitFor();
  const page = await stage.as('owner', `/procedures/revision/${draft}`);
  for (const title of NEW_STEPS)
    await page
      .getByRole('heading', { name: `step: ${title}` })
      .first()
      .waitFor();
  await stage.look(page, 'comparison');
  await page.getByRole('button', { name: 'Approve ...' }).click();
  await page
    .getByRole('dialog')
    .getByText(/In force now, that is/)
    .waitFor();
  await page.getByRole('dialog').getByRole('button', { name: 'Approve the revision' }).click();
  await page.getByText('in force', { exact: true }).waitFor();
  await page.getByText(/^Not yet: /).waitFor();
  await stage.look(page, 'approved');
  const { acknowledgeBy } = (await page.evaluate((id) => fetch(`/api/revisions/${id}`).then((reply) => reply.json()), draft)) as {
    acknowledgeBy: string;
  };
  return new Date(acknowledgeBy);
}

/** One inspector reads and acknowledges on the phone. */
export async function acknowledge(stage: Stage, who: CastName, draft: string, picture = false): Promise<void> {
  const page = await stage.as(who, '/procedures', PHONE);
  await page.getByRole('link', { name: 'Electrical, revision 2' }).click();
  await page.waitForURL(new RegExp(draft));
  await page.getByRole('button', { name: 'I have read this and will work by it' }).waitFor();
  if (picture) await stage.look(page, 'acknowledge');
  await page.getByRole('button', { name: 'I have read this and will work by it' }).click();
  await page.getByText(/^You acknowledged this on/).waitFor();
}

/** Everybody who goes out, by the roles of the cast. */
export const inspectors = (Object.keys(CAST) as CastName[]).filter((who) => CAST[who].roles.includes('inspector'));
