// Driving times in the browser: said by hand and ended, looked at, a drive noted and corrected, a house by ZIP code and then exactly.
import { beforeAll, it } from 'vitest';
import { CAST } from '../support/cast.ts';
import { expectAccessible, staffApp } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const app = staffApp();
withStarter(app);
let jobId: string;

beforeAll(async () => {
  const at = (hours: number) => new Date(app.clock.now.getTime() + hours * 3_600_000).toISOString();
  ({ jobId } = await bookedVisit(app, { startsAt: at(0.05), endsAt: at(3), first: CAST.anna.id, second: CAST.ben.id }));
});

it('the office says how long a drive takes, sees what is wrong with it, and ends it', async () => {
  const page = await app.openAs('office', '/travel');
  await page.getByRole('button', { name: 'Say how long a drive takes' }).click();
  await page.getByRole('combobox', { name: /^Area/ }).fill('The north shore');
  await page.getByRole('combobox', { name: /^Other area/ }).fill('Birchmere');
  await page.getByLabel('Minutes on the road').fill('40');
  await page.getByLabel('Why').fill('The bridge is closed');
  await page.getByRole('button', { name: 'Let it count' }).click();
  await page.getByRole('alert').getByText('0, 0 lies in the sea').waitFor();
  await expectAccessible(page);
  await page.getByLabel('Its middle').first().fill(`44°11'24"N 88°27'36"W`);
  await page.getByRole('button', { name: 'Let it count' }).click();
  const table = page.getByRole('table', { name: 'Said by hand' });
  await table.getByText('40 min').waitFor();
  await table.getByText('The bridge is closed').waitFor();
  const end = page.getByRole('button', { name: /^End it: The north shore/ });
  await end.click();
  await page.getByText('Nothing is said by hand.').waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByText('Undone: it is as before.').waitFor();
  await end.click();
  await page.getByText('Nothing is said by hand.').waitFor();
});

it('the recorded drives are looked at, and the fit is used and left again', async () => {
  const page = await app.openAs('office', '/travel');
  await page.getByRole('button', { name: 'Look at the drives now' }).click();
  await page.getByText('0 drives counted').waitFor();
  await page.getByRole('button', { name: 'Use the fit shown' }).click();
  await page.getByText(/In use: the fit of .* to 0 drives/).waitFor();
  await page.getByRole('button', { name: 'Use the standard speeds' }).click();
  await page.getByText('In use: the standard speeds').waitFor();
});

it('an inspector notes the drive on a phone, and corrects it', async () => {
  const page = await app.openAs('anna', '/my-day', 'phone');
  await page.getByRole('button', { name: 'I set out now' }).click();
  await page.getByRole('button', { name: 'I am there' }).click();
  await page.getByText(/^Set out .*, there /).waitFor();
  await page.getByRole('button', { name: 'Correct the times' }).click();
  await expectAccessible(page);
  await page.getByLabel('There').fill('00:00');
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByText(/Setting out comes before arriving|more than 12 hours from the start/).waitFor();
  await page.getByRole('button', { name: 'Leave it' }).click();
  await page.getByText(/^Set out .*, there /).waitFor();
});

it('a house outside the towns is placed by its ZIP code, a booked one exactly by pasted coordinates', async () => {
  const book = await app.openAs('office', '/book');
  await book.getByLabel('Town').selectOption({ label: 'Another town (ZIP)' });
  await book.getByLabel('Name of the town').fill('Elsewhere');
  await book.getByLabel('ZIP code').fill('00000');
  await book.getByText('No place is known for the ZIP code 00000').waitFor();
  await book.getByLabel('ZIP code').fill('54904');
  await book.getByText('approximate').waitFor();
  await book.getByRole('radio').first().waitFor();
  await expectAccessible(book);
  const job = await app.openAs('office', `/jobs/${jobId}`);
  await job.getByText('in the middle of the town (approximate)').waitFor();
  await job.getByRole('button', { name: 'Set the exact place' }).click();
  await job.getByLabel('Latitude and longitude').fill('north of the mill');
  await job.getByRole('button', { name: 'Set this place' }).click();
  await job.getByText('Paste two numbers, latitude first').waitFor();
  await job.getByLabel('Latitude and longitude').fill('44.0312, -88.5437');
  await job.getByRole('button', { name: 'Set this place' }).click();
  await job.getByText('44.0312, -88.5437, exact').waitFor();
  await job.getByLabel('Latitude and longitude').waitFor({ state: 'detached' });
  await expectAccessible(job);
});
