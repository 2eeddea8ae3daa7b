// At the door without signal, on a phone that was killed: one client signs on it, at the next house nobody comes.
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { CAST, PASSWORD, withCast } from '../support/cast.ts';
import { wordOf } from '../support/clientLink.ts';
import { testService } from '../support/database.ts';
import { drawOn } from '../support/draw.ts';
import { paidJob } from '../support/paidJob.ts';
import { phoneOf, type Phone } from '../support/phone.ts';
import { withSite } from '../support/site.ts';
import { siteJob, type SiteJob } from '../support/siteJob.ts';
import { withStarter } from '../support/starter.ts';

const HOUR = 3_600_000;
const service = testService();
withCast(service);
withStarter(service);
const site = withSite(service);
let anna: Phone;
let signs: SiteJob;
let waits: SiteJob;

beforeAll(async () => {
  signs = await paidJob(service, { startsAt: new Date(Date.now() + 4 * HOUR) });
  waits = await siteJob(service, { startsAt: new Date() });
  anna = await phoneOf(site, 'anna');
});
afterAll(() => anna?.close());

/** By the office, on another machine. */
async function issue(jobId: string): Promise<void> {
  const ask = (path: string, body: object, cookie = '') =>
    fetch(site.url + path, {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'idempotency-key': randomUUID(), cookie },
      body: JSON.stringify(body),
    });
  const session = await ask('/api/session', { email: CAST.office.email, password: PASSWORD });
  const issued = await ask(`/api/jobs/${jobId}/agreement`, {}, session.headers.get('set-cookie')!.split(';')[0]);
  expect(issued.status, await issued.text()).toBe(201);
}

const signature = () =>
  service.database.read.rows<{ method: string; drawn: boolean; happened: Date; recorded: Date }>(
    `SELECT g.method, g.strokes_text_id IS NOT NULL AS drawn, g.happened_at AS happened, g.recorded_at AS recorded FROM signature g JOIN signer s ON s.id = g.signer_id
     JOIN agreement a ON a.id = s.agreement_id WHERE a.job_id = $1::uuid`,
    [signs.jobId],
  );
const ending = () =>
  service.database.read.rows<{ kind: string; waited: number }>(
    'SELECT kind, waited_minutes AS waited FROM visit_ending WHERE visit_id = $1::uuid',
    [waits.visitId],
  );

it('reads the day ahead, is killed, and takes both without signal; killed again, it sends them when there is one', async () => {
  await issue(signs.jobId);
  const word = await wordOf(service.database, signs.jobId);
  await anna.open('/my-day');
  await anna.page.getByText('Home inspection').first().waitFor();
  await anna.page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await anna.page.waitForLoadState('networkidle');
  await anna.cut(true);
  await anna.kill();

  await anna.open(`/visits/${signs.visitId}/start`);
  await anna.page.getByRole('link', { name: 'Let the client sign here' }).click();
  await anna.page.getByRole('link', { name: 'Sign on this device' }).click();
  await anna.page.getByLabel('I have read the agreement above').check();
  await anna.page.getByLabel('The word at the end of the agreement').fill(word);
  await anna.page.getByLabel('I agree to sign').check();
  await anna.page.getByLabel('Full name').fill('Paula Prior');
  await anna.page.getByRole('button', { name: 'Sign the agreement' }).click();
  await anna.page.getByRole('alert').getByText('Please draw your signature').first().waitFor();
  await drawOn(anna.page);
  await anna.page.getByText('The signature is drawn.').waitFor();
  await anna.page.getByRole('button', { name: 'Sign the agreement' }).click();
  await anna.page.getByRole('region', { name: 'Signatures on this phone' }).waitFor();

  await anna.open(`/visits/${waits.visitId}/ending`);
  await anna.page.getByText('nobody came', { exact: false }).first().click();
  await anna.page.getByLabel('Minutes waited').fill('30');
  await anna.page.getByLabel('Calls made').fill('2');
  await anna.page.getByRole('button', { name: 'Record how it ended' }).click();
  await anna.page.getByText('Kept on this phone').first().waitFor();
  expect([await signature(), await ending()]).toEqual([[], []]);

  await anna.kill();
  await anna.cut(false);
  await site.signIn(anna.page, 'anna'); // a killed browser may have lost its session
  await anna.open('/my-day');
  await expect.poll(signature, { timeout: 20_000 }).toMatchObject([{ method: 'on_site_device', drawn: true }]);
  await expect.poll(ending, { timeout: 20_000 }).toEqual([{ kind: 'nobody_came', waited: 30 }]);
  const { happened, recorded } = (await signature())[0]!;
  expect(recorded.getTime()).toBeGreaterThanOrEqual(happened.getTime());
  await anna.page.getByRole('region', { name: 'Signatures on this phone' }).waitFor({ state: 'detached' });
  await anna.open(`/visits/${signs.visitId}/start`);
  await anna.page.getByText('Agreement and fee are in order.').waitFor();
});
