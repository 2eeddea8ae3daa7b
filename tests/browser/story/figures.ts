// The end of the story: the new steps in the record of a later house, and the firm's figures before and after.
import { expect } from 'vitest';
import type { StepPage } from '@backsight/contract/liability/steps';
import { NEW_STEPS } from './change.ts';
import { goTo, recordOf } from './siteRecord.ts';
import type { Stage } from './stage.ts';
import type { CastName } from '../../support/cast.ts';
import { DEVICE } from './callback.ts';

/** Goes through the three steps in their order: a count that differs is said at once, and the right one is recorded. */
export async function workNewSteps(stage: Stage, who: CastName, recordId: string): Promise<void> {
  const page = await stage.as(who, `/records/${recordId}`);
  const [before, trip, after] = NEW_STEPS as [string, string, string];
  const rows = page.getByRole('button', { name: /\(Upstairs bath\)/ });
  const listed = async (): Promise<number[]> => {
    if (!(await rows.first().isVisible())) await page.getByText('All steps').click(); // it closes when the record opens at another page
    const list = await rows.allTextContents();
    return list
      .filter((text) => NEW_STEPS.some((title) => text.startsWith(title)))
      .map((text) => NEW_STEPS.findIndex((title) => text.startsWith(title)));
  };
  await expect.poll(listed).toEqual([0, 1, 2]);
  await goTo(page, recordId, before);
  await page.getByLabel('Count: receptacles live').fill('9');
  await page.getByRole('button', { name: 'Done', exact: true }).click();
  await page.getByRole('heading', { name: trip }).waitFor();
  await page.getByRole('radio', { name: 'trips and resets' }).check();
  await page.getByRole('button', { name: 'Done', exact: true }).click();
  await page.getByRole('heading', { name: after }).waitFor();
  await page.getByLabel('Count: receptacles live').fill('8');
  await page.getByText('Before it was 9. Look again').waitFor();
  await stage.look(page, 'count-must-match');
  await page.getByLabel('Count: receptacles live').fill('9');
  await page.getByText('Add a note').click();
  await page.getByLabel('Note (not needed)').fill('Behind the freezer not reached: its light is on.');
  await page.getByRole('button', { name: 'Done', exact: true }).click();
  const keys = async () => (await recordOf(page, recordId)).entries.map(({ stepKey }) => stepKey);
  await expect.poll(keys).toContain('live-receptacles-after');
}

/** What the owner reads: times applied and traced callbacks before and after, with exact intervals, and no verdict yet. */
export async function readFigures(stage: Stage): Promise<void> {
  const page = await stage.as('owner', '/liabilities/steps');
  await page.getByRole('link', { name: DEVICE }).first().click();
  await page.getByRole('heading', { name: 'Did the changes help?' }).waitFor();
  await stage.look(page, 'figures');
  const text = (await page.getByRole('main').textContent())!;
  expect(text).toContain(`${DEVICE}: revision 2`);
  expect(text).toMatch(/Before the change 1 failure in 1 times? the step applied, after it no failure in 1\. Too early to tell/);
  // C. Clopper, E. Pearson, Biometrika 26 (1934) 404: one met of one, 95 % limits 0.025 and 1.
  expect(text).toContain('in 1 of 1 times on sealed records the evidence meets the changed step (100 %; likely 3 % to 100 %)');
  const { changes } = (await page.evaluate(
    (path) => fetch(path).then((reply) => reply.json()),
    `/api/liability/steps/ground-fault-trip-reset`,
  )) as StepPage;
  const change = changes[0]!;
  // F. Garwood, Biometrika 28 (1936) 437: 95 % limits of a Poisson mean are 0.0253 and 5.572 when one is seen, 0 and 3.689 when none is; the step applied once each time.
  expect(
    [change.before.rate!.lower, change.before.rate!.upper, change.after.rate!.lower, change.after.rate!.upper].map((limit) =>
      Number(limit.toFixed(3)),
    ),
  ).toEqual([0.025, 5.572, 0, 3.689]);
}
