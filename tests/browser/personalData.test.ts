// The owner sets for how long records are kept, looks through what is due and disposes of it, gives a client everything and erases who asks; the file of a job is held back in part and reviewed: in a real browser.
import { expect, it } from 'vitest';
import { siteJob, type SiteJob } from '../support/siteJob.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const app = staffApp();
withStarter(app);

/** A job that was called off, years ago. */
async function over(): Promise<SiteJob> {
  const job = await siteJob(app, { startsAt: new Date(app.clock.now.getTime() - 7 * 86_400_000) });
  await app.database.transaction(async (tx) => {
    await tx.rows(`UPDATE visit SET state = 'cancelled', live = false WHERE job_id = $1::uuid RETURNING 1`, [job.jobId]);
    await tx.rows(`UPDATE job SET state = 'cancelled' WHERE id = $1::uuid RETURNING 1`, [job.jobId]);
  });
  return job;
}
const nameOf = async (id: string) =>
  (await app.database.read.rows<{ name: string }>('SELECT name FROM party WHERE id = $1::uuid', [id]))[0]!.name;

it('an owner holds something back from the file of a job, and says when it was reviewed', async () => {
  const job = await siteJob(app, { startsAt: new Date(app.clock.now.getTime() - 1_800_000) });
  const owner = await app.openAs('owner', `/jobs/${job.jobId}`);
  await owner.getByRole('button', { name: 'Make a file of this job' }).click();
  await owner.getByLabel('Made for').fill('A. Counsel');
  await owner.getByLabel('Why, and what was asked for').fill('Subpoena of May 12, everything of the job');
  await owner.getByText(/^Hold something back/).click();
  await owner.getByRole('checkbox', { name: /^Agreement issued/ }).check();
  await owner.getByRole('combobox', { name: /^Why: Agreement issued/ }).fill('no');
  await owner.getByRole('button', { name: 'Make the file' }).click();
  await owner
    .getByText(/reason/i)
    .first()
    .waitFor();
  await owner.getByRole('combobox', { name: /^Why: Agreement issued/ }).fill('Words between the firm and its attorney: privileged.');
  await owner.getByRole('button', { name: 'Make the file' }).click();
  await owner.getByText(/things held back/).click();
  await owner.getByText(/^Agreement issued .*: Words between the firm/).waitFor();
  await owner.getByText(/^For the attorney’s review/).click();
  await owner.getByRole('button', { name: 'It was reviewed and may leave' }).click();
  await owner
    .getByText(/Reviewed on/)
    .first()
    .waitFor();
  await owner.getByLabel('Reviewed on').fill('2026-05-14');
  await owner.getByRole('button', { name: 'It was reviewed and may leave' }).click();
  await owner.getByText(/Reviewed by A. Counsel on/).waitFor();
  await expectAccessible(owner);
});

it('a client gets everything that is kept of them, and is erased by the list that is shown', async () => {
  const job = await over();
  const office = await app.openAs('office', '/personal-data', 'phone');
  await office.getByLabel('Part of a name, an address or a phone').fill('Nobody Known');
  await office.getByRole('button', { name: 'Find' }).click();
  await office.getByText('Nobody is kept under that.').waitFor();
  await office.goto(new URL(`/personal-data?subject=party&id=${job.clientId}`, office.url()).href);
  const [file] = await Promise.all([
    office.waitForEvent('download'),
    office.getByRole('button', { name: 'Everything about this person, as a file' }).click(),
  ]);
  expect(file.suggestedFilename()).toMatch(/^personal-data-.*\.zip$/);
  expect(await office.getByRole('heading', { name: 'For how long records are kept' }).count()).toBe(0);

  const owner = await app.openAs('owner', `/personal-data?subject=party&id=${job.clientId}`);
  await owner
    .getByRole('cell', { name: 'Phone, e-mail address, wishes and notes' })
    .or(owner.getByRole('rowheader', { name: 'Phone, e-mail address, wishes and notes' }))
    .first()
    .waitFor();
  await expectAccessible(owner);
  await owner.getByRole('button', { name: /^Erase what goes/ }).click();
  await owner.getByText('Not saved yet. Please look at:').waitFor();
  await owner.getByLabel('Asked on').fill('2026-05-11');
  await owner.getByRole('button', { name: /^Erase what goes/ }).click();
  await owner.getByText('Nothing is left that may go now.').waitFor();
  const [party] = await app.database.read.rows<{ email: string | null; name: string }>(
    'SELECT email, name FROM party WHERE id = $1::uuid',
    [job.clientId],
  );
  expect(party).toEqual({ email: null, name: 'Paula Prior' });
});

it('what is over its time is looked through and disposed of', async () => {
  const job = await over();
  app.clock.now = new Date('2044-06-01T15:00:00Z');
  const owner = await app.openAs('owner', '/personal-data');
  await owner.getByRole('button', { name: 'Change the years of: Job files' }).click();
  await owner.getByRole('textbox', { name: 'Years' }).fill('3');
  await owner.getByLabel('Why, and who advised it').fill('A shorter time was wanted.');
  await owner.getByRole('button', { name: 'Keep job files so long' }).click();
  await owner
    .getByText(/say 6 years for/)
    .first()
    .waitFor();
  await owner.getByRole('textbox', { name: 'Years' }).fill('12');
  await owner.getByRole('button', { name: 'Keep job files so long' }).click();
  await owner.getByText(/^12 years from/).waitFor();
  const kept = owner.getByRole('checkbox', { name: /^Dispose of: Job/ }).first();
  await kept.uncheck();
  await kept.check();
  await owner.getByRole('button', { name: /^Dispose of \d+ of \d+$/ }).click();
  await owner.getByText('It cannot be taken back. Backups').waitFor();
  await expectAccessible(owner);
  await owner.getByRole('button', { name: 'Dispose of them' }).click();
  await owner.getByText('Nothing is due').waitFor();
  expect(await nameOf(job.clientId)).toBe('(no longer kept)');
  await owner.goto(new URL(`/jobs/${job.jobId}`, owner.url()).href);
  await owner
    .getByText(/was disposed of on/)
    .first()
    .waitFor();
});
