// What is loaded before the first picture stays small, and comes compressed. `npm run bench -- weight` prints it.
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, inject, it } from 'vitest';
import { KEEP_SCRIPT } from '../../apps/api/src/http/client/keepScript.ts';
import { REPORT_SCRIPT } from '../../apps/api/src/http/client/reportScript.ts';
import { SCRIPT } from '../../apps/api/src/http/client/script.ts';
import { testService } from '../support/database.ts';
import { scale, weightOfText } from '../support/weight.ts';
import { withSite } from '../support/site.ts';

const KB = 1024;
/** What a wide window asks for at once beside its screen. */
const BESIDE = ['shellNavigation', 'GoTo'];
const site = withSite(testService());

/** To its end: a service that still sends is not closed. */
async function read(address: string, encoding: string): Promise<{ headers: Headers; text: string }> {
  const reply = await fetch(site.url + address, { headers: { 'accept-encoding': encoding } });
  return { headers: reply.headers, text: await reply.text() };
}

describe('the script that comes first', () => {
  const weigh = scale(inject('web'));
  it.each([
    ["a client's signing page", () => weightOfText(SCRIPT + KEEP_SCRIPT), 60],
    ["a client's report of a problem", () => weightOfText(REPORT_SCRIPT), 60],
    ["the staff's home", () => weigh('HomePage', ...BESIDE), 160],
    ['one job', () => weigh('JobPage', ...BESIDE), 212],
    ['one callback', () => weigh('CallbackPage', ...BESIDE), 218],
    ['my day', () => weigh('MyDayPage'), 151],
    ['the site record on a phone', () => weigh('RecordPage'), 146],
  ])('of %s is within its limit', (_, weight, most) => expect(Math.ceil(weight().brotli / KB)).toBeLessThanOrEqual(most));

  it('is sent compressed, and holds no schema where every screen begins', async () => {
    const assets = path.join(inject('web'), 'assets');
    const scripts = fs.readdirSync(assets).filter((name) => /^(start|site)-.*\.js$/.test(name));
    expect(scripts.length).toBe(2);
    expect(scripts.filter((name) => fs.readFileSync(path.join(assets, name), 'utf8').includes('invalid_type'))).toEqual([]);
    const largest = scripts.find((name) => name.startsWith('start-'))!;
    for (const encoding of ['br', 'gzip']) {
      const reply = await read(`/assets/${largest}`, encoding);
      expect([reply.headers.get('content-encoding'), reply.headers.get('cache-control')]).toEqual([
        encoding,
        'public, max-age=31536000, immutable',
      ]);
    }
    for (const page of ['/', '/client/nothing', '/verify', '/complaints']) {
      const sent = await Promise.all(['br, gzip', 'gzip, br;q=0', 'gzip;q=0'].map((encoding) => read(page, encoding)));
      expect(sent.map(({ headers }) => headers.get('content-encoding'))).toEqual(['br', 'gzip', null]);
      expect(sent.map(({ headers }) => headers.get('vary'))).toEqual(Array(3).fill('accept-encoding'));
      expect(new Set(sent.map(({ text }) => text))).toHaveProperty('size', 1);
      expect(sent[0]!.text).toMatch(/^<!doctype html>/i);
    }
  });
});
