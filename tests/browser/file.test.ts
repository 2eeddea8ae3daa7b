// Papers that end early or were noted wrongly: the last day of a license, and a policy that is corrected.
import { expect, it } from 'vitest';
import { CAST } from '../support/cast.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);

it('a license gets another last day, never one before its first', async () => {
  const page = await app.openAs('office', `/people/${CAST.anna.id}`, 'phone');
  const [license] = await app.database.read.rows<{ number: string }>('SELECT number FROM license WHERE person_id = $1::uuid', [
    CAST.anna.id,
  ]);
  await page.getByRole('button', { name: `Change the last day of license ${license!.number}` }).click();
  await page.locator('input[name="untilDay"]').fill('1999-01-01');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByRole('alert').first().waitFor();
  await expectAccessible(page);
  await page.locator('input[name="untilDay"]').fill('2031-03-31');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('March 31, 2031').or(page.getByText('Mar 31, 2031')).first().waitFor();
  expect(await app.database.read.rows('SELECT until_day::text AS day FROM license WHERE number = $1', [license!.number])).toEqual([
    { day: '2031-03-31' },
  ]);
});

it('a policy is corrected by the owner', async () => {
  const [policy] = await app.database.read.rows<{ number: string; reportable: string }>(
    'SELECT number, reportable FROM insurance_policy ORDER BY number LIMIT 1',
  );
  const page = await app.openAs('owner', '/firm', 'desk');
  await page.getByRole('button', { name: `Change policy ${policy!.number}` }).click();
  expect(await page.getByLabel('Which circumstances must be reported').inputValue()).toBe(policy!.reportable);
  await page.getByLabel('Deductible, in dollars').fill('7,500');
  await page.getByRole('button', { name: 'Save the policy' }).click();
  await page.getByText('$7,500.00').first().waitFor();
  await expectAccessible(page);
  expect(
    await app.database.read.rows('SELECT deductible_cents AS cents FROM insurance_policy WHERE number = $1', [policy!.number]),
  ).toEqual([{ cents: 750_000 }]);
});
