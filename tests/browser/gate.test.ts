// A visit that may not start yet: the pair reads what is missing and who may let it pass; a lead inspector does, with a reason.
import { expect, it } from 'vitest';
import { siteJob } from '../support/siteJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);

it('is let start by a lead inspector with a reason, never by the pair alone', async () => {
  const { visitId, jobId } = await siteJob(app, { signed: false });
  const anna = await app.openAs('anna', `/visits/${visitId}/start`, 'phone');
  await anna.getByText('No agreement has been issued').waitFor();
  await anna.getByText('An owner or a lead inspector may let it start anyway').waitFor();
  expect(await anna.getByRole('button', { name: 'Start anyway' }).count()).toBe(0);
  const lead = await app.openAs('lead', `/jobs/${jobId}`, 'phone');
  await lead.getByText('Missing before it may start').waitFor();
  await expectAccessible(lead);
  await lead.getByRole('link', { name: 'Start of the visit' }).click();
  await lead.getByRole('button', { name: 'Start anyway' }).click();
  await lead.getByLabel('Reason').fill('too short');
  await lead.getByRole('button', { name: 'Let it start' }).click();
  await lead.getByRole('alert').getByText('at least 10 characters').first().waitFor();
  await expectAccessible(lead);
  await lead.getByLabel('Reason').fill('The client signs on paper at the door.');
  await lead.getByRole('button', { name: 'Let it start' }).click();
  await lead.getByText('Let pass: The client signs on paper at the door. (Lena Lead)').waitFor();
  await lead.goBack();
  await lead.getByText('May start although something is missing').waitFor();
  await anna.reload();
  await anna.getByRole('button', { name: 'Start the visit' }).click();
  await anna.waitForURL(/\/records\//);
});
