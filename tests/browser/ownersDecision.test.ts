// The owner's decision on a phone: a remedy above the lead inspector's limit is approved from home, the reason why the insurer need not be
// asked is put on file, the money leaves; then a contractor's estimate with what speaks against it, the notice to the insurer, and the end.
import { randomUUID } from 'node:crypto';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { concludeCallback } from '@backsight/usecases/callbacks/concludeCallback';
import { proposeRemedy } from '@backsight/usecases/callbacks/remedies';
import { inputsOf } from '../support/inputs.ts';
import { DEVICE, done, openCallback } from '../support/openCallback.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);
const day = inputsOf('owner');
let owner: Page;

beforeAll(async () => {
  const { callbackId: id } = await openCallback(app, ['anna', 'ben']);
  const concluded = { cause: 'not_in_procedure', stepKey: 'ground-fault-trip-reset' } as const;
  await done(app, concludeCallback, { id, conclusionId: randomUUID(), ...concluded }, 'lead');
  const asked = { kind: 'goodwill_payment', cents: 60_000, payee: 'Paula Prior', words: 'Food and a new freezer.' } as const;
  await done(app, proposeRemedy, { id, remedyId: randomUUID(), ...asked }, 'lead');
  owner = await app.openAs('owner', '/', 'phone');
  await day.watch(owner.context());
});

const press = (name: string | RegExp) => owner.getByRole('main').getByRole('button', { name, exact: true }).click();

describe("the owner's decision", () => {
  it('is made from home: approved, the reason on file, paid', async () => {
    const because = 'each of the three is opened and done, and only what the owner alone knows is said';
    await day.task('from home to the money paid', { atMost: 8, because }, async () => {
      await owner.getByRole('link', { name: /^Decide: Callback 1/ }).click();
      // Concluded, it is one line on a phone.
      await owner.getByText(`Traced step: ${DEVICE}`).last().waitFor();
      await press('Approve');
      await owner.getByText('No offer, payment or refund leaves before').first().waitFor();
      await press('Record consent or reason');
      await owner.getByLabel('What is on file').selectOption('owner_reason');
      await owner.getByLabel(/Who said so/).fill('Far below the deductible');
      await press('Record it');
      await owner.getByText('Far below the deductible (Olive Owner').waitFor();
      await press('Record the payment');
      await press('Record the payment');
      await owner.getByText('Bank and cash -$600.00').waitFor();
    });
  });

  it('weighs what speaks against a contractor, what was agreed before, and a rule of the state', async () => {
    await press('Record an estimate');
    await owner.getByLabel('Contractor').fill('Plover Electric');
    await owner.getByLabel('Amount').fill('720.00');
    await owner.getByLabel('What would be done').fill('Feed the garage from its own circuit.');
    await press('Record it');
    await owner.getByText('Only one contractor has given an estimate').waitFor();
    await press('Propose a remedy');
    await owner.getByLabel('Remedy').selectOption('independent_contractor');
    await owner.getByLabel('By which estimate').selectOption({ label: 'Plover Electric, $720.00' });
    await owner.getByText('$600.00 were agreed before; with this it is $1,320.00.').waitFor();
    await owner.getByText('A rule of the state speaks to this').waitFor();
    await owner.getByLabel('Reasons').fill('The only one who can come this week.');
    await press('Propose');
    await press('Send the settlement release');
    await owner.getByText('Settlement release (an example that no attorney has reviewed): not signed by everybody yet.').waitFor();
    await press('Offer it by mail');
    await owner.getByText('Wis. Stat. 904.08, from memory').waitFor();
    await expectAccessible(owner);
    await press('Go back');
    await press('Refuse');
  });

  it('tells the insurer and ends it, found again under its step', async () => {
    await press('Record a notice to the insurer');
    await owner.getByLabel('What was reported').fill('The complaint, and that it is settled for little.');
    await press('Record it');
    await owner.getByText('The complaint, and that it is settled for little.').waitFor();
    await owner.getByText('$600.00 used of $2,500.00').waitFor();
    await press('Close');
    await press('Close');
    await owner.getByRole('button', { name: 'Open again' }).waitFor();
    await owner.goto(new URL('/callbacks?which=all&by=step', owner.url()).href);
    const group = owner.getByRole('link', { name: new RegExp(`${DEVICE}$`) });
    await group.click();
    await owner.getByText('Traced to the step').waitFor();
    expect(owner.url()).toContain('step=ground-fault-trip-reset');
    await expectAccessible(owner);
    await owner.goBack();
    await group.waitFor();
  });
});
