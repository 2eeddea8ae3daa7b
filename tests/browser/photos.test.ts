// Photos and spoken notes on a phone of 390 px in a dead spot: taken, one taken out again, kept through a killed browser, sent behind their
// entry, shown and heard.
import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { MemberRecord } from '@backsight/contract/sitework';
import { pagesOf } from '@backsight/domain/sitework/pages';
import { withCast } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { phoneOf, type Phone } from '../support/phone.ts';
import { picture, picturedAt } from '../support/pictures.ts';
import { withSite } from '../support/site.ts';
import { siteJob, type SiteJob } from '../support/siteJob.ts';
import { expectAccessible } from '../support/staffApp.ts';
import { withStarter } from '../support/starter.ts';

const service = testService();
withCast(service);
withStarter(service);
const site = withSite(service);
let job: SiteJob;
let anna: Phone;

beforeAll(async () => {
  job = await siteJob(service, { startsAt: new Date() });
  await service.database.transaction((tx) => tx.db.property.updateMany({ data: { placeBy: 'exact' } }));
  anna = await phoneOf(site, 'anna', site.url, ['--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream']);
});
afterAll(() => anna?.close());

const look = async (name: string): Promise<void> => {
  await expectAccessible(anna.page);
  if (process.env.SCREENS) await anna.page.screenshot({ path: `${process.env.SCREENS}/${name}.png`, fullPage: true });
};
const shots = () => anna.page.getByRole('group', { name: /^Photo of the main valve/ });
describe('photos of a step', () => {
  it('are kept on the phone as they were taken, sent when there is signal, and shown from the service', async () => {
    const files = [await picturedAt({ lat: 44.0301, lon: -88.54 }), await picture('png', 2), await picture('jpeg', 3)];
    const named = files.map((buffer, at) => ({
      name: `IMG_${at}.${at === 1 ? 'png' : 'jpg'}`,
      mimeType: at === 1 ? 'image/png' : 'image/jpeg',
      buffer,
    }));
    await anna.open(`/visits/${job.visitId}/start`);
    await anna.page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await anna.page.getByRole('button', { name: 'Start the visit' }).click();
    await anna.page.getByText(/^0 of \d+ recorded$/).waitFor();
    const id = new URL(anna.page.url()).pathname.split('/').at(-1)!;
    const { steps } = (await (await anna.page.request.get(`${site.url}/api/records/${id}`)).json()) as MemberRecord;
    const page = pagesOf(steps).findIndex((one) => one.steps.some(({ stepKey }) => stepKey === 'water-main-valve-photo'));
    const address = `/records/${id}?page=${page}`;
    await anna.cut(true);
    await anna.open(address);
    await shots().locator('input[type=file]').first().setInputFiles(named[0]!);
    await shots().getByRole('img').first().waitFor();
    await shots()
      .locator('input[type=file]')
      .last()
      .setInputFiles([{ name: 'x.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no photo') }, ...named.slice(1)]);
    await anna.page.getByText('This browser cannot read this file as a photo').waitFor();
    await shots()
      .getByRole('button', { name: /^Remove Photo 3/ })
      .click();
    await expect.poll(() => shots().getByRole('img').count()).toBe(2);
    await look('photos-taken-390');
    await anna.kill();
    await anna.open(address);
    await expect.poll(() => shots().getByRole('img').count()).toBe(2);
    await anna.page.getByRole('button', { name: /^(Record|Confirm)/ }).click();
    await anna.page.getByText(/2 photos not yet sent, kept on this phone/).waitFor();
    await anna.cut(false);
    await site.signIn(anna.page, 'anna'); // a killed browser loses its session
    const rows = () =>
      service.database.read.rows<{ sha: string; near: string }>(
        'SELECT original_sha256 AS sha, near_property AS near FROM site_photo ORDER BY taken_at',
      );
    const expected = files
      .slice(0, 2)
      .map((file, at) => ({ sha: createHash('sha256').update(file).digest('hex'), near: at === 0 ? 'yes' : 'unknown' }));
    await expect.poll(rows, { timeout: 20_000 }).toEqual(expected);
    await anna.page.getByText('Everything is sent.').waitFor();
    await anna.open(address);
    const shown = anna.page.getByRole('link', { name: 'Photo 1' }).getByRole('img');
    await shown.waitFor();
    await expect.poll(() => shown.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBeGreaterThan(0);
    await anna.page.getByText('taken within 200 m of the property: yes').waitFor();
    await look('photos-sent-390');
  });
});

describe('a spoken note', () => {
  const button = (name: string | RegExp) => anna.page.getByRole('button', { name });
  const record = () => new URL(anna.page.url()).pathname.split('/').at(-1)!;
  /** A page of one step that asks for a note. */
  const noteStep = async (): Promise<string> => {
    const { steps } = (await (await anna.page.request.get(`${site.url}/api/records/${record()}`)).json()) as MemberRecord;
    const page = pagesOf(steps).findIndex((one) => one.steps.length === 1 && one.steps[0]!.evidence.kind === 'note');
    return `/records/${record()}?page=${page}`;
  };
  const refuse = () =>
    anna.page.evaluate(() => {
      navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('', 'NotAllowedError'));
    });

  it('is no loss where the microphone is refused: what is typed stays, and says what else can be done', async () => {
    const address = await noteStep();
    await anna.open(address);
    await anna.page.getByRole('textbox', { name: 'Note' }).fill('Typed before');
    await refuse();
    await button('Record a spoken note').click();
    await anna.page.getByText(/^The microphone is not allowed here/).waitFor();
    expect(await anna.page.getByRole('textbox', { name: 'Note' }).inputValue()).toBe('Typed before');
    await look('spoken-refused-390');
    await anna.page.getByRole('textbox', { name: 'Note' }).fill('');
  });

  it('is recorded by one press without signal, kept through a killed browser, and sent behind the step that it stands for', async () => {
    const address = await noteStep();
    await anna.open(address);
    await anna.page.getByText(/must agree first/).waitFor();
    await anna.cut(true);
    await button('Record a spoken note').click();
    await anna.page.getByText(/^Recording, for 3 minutes at most/).waitFor();
    await look('spoken-running-390');
    await button(/^Stop and keep it \(0:0[4-9]\)/).waitFor({ timeout: 15_000 }); // the first piece is written
    await anna.kill();
    await anna.open(address);
    await button('Remove spoken note 1').click();
    await button('Record a spoken note').click();
    await button(/^Stop and keep it \(0:0[1-9]\)/).click();
    await button(/^Listen: Spoken note 1/).click();
    await button(/^Stop: Spoken note 1/).waitFor();
    await button(/^Listen: Spoken note 1/).waitFor(); // played to its end
    expect(await anna.page.getByText('cannot play').count()).toBe(0);
    await button('Record a spoken note').click();
    await button(/^Stop and keep it \(0:0[1-9]\)/).waitFor();
    await look('spoken-kept-390');
    await button('Done').click();
    await anna.page.getByText(/2 spoken notes not yet sent, kept on this phone/).waitFor();
    await anna.cut(false);
    await site.signIn(anna.page, 'anna');
    const rows = () =>
      service.database.read.rows<{ type: string; long: boolean }>(
        'SELECT f.media_type AS type, h.seconds BETWEEN 1 AND 9 AND f.bytes > 1000 AS long FROM site_photo h JOIN stored_file f ON f.sha256 = h.original_sha256 WHERE h.seconds IS NOT NULL',
      );
    await expect.poll(rows, { timeout: 20_000 }).toEqual(Array(2).fill({ type: 'audio/webm', long: true }));
    await anna.open(address);
    await button(/^Listen: Spoken note, .*, Anna Inspector/)
      .first()
      .click();
    await button(/^Stop: Spoken note, .*, Anna Inspector/).waitFor();
    await look('spoken-sent-390');
  });
});
