// What a caller is told before anything is booked: the price with its reasons, and the possible starts.
import { describe, expect, it } from 'vitest';
import { CAST } from '../support/cast.ts';
import { FACTS, PLACE } from '../support/booking.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

const read = (path: string, body: unknown) => api.send('office', 'POST', path, { body, once: true });
const starts = async (more: object = {}) =>
  (await read('/api/starts', { place: PLACE, facts: FACTS, services: ['inspection'], fromDay: '2026-05-13', days: 5, limit: 60, ...more }))
    .body;

describe('a quote', () => {
  it('itemises fee and duration with reasons, and says what was assumed', async () => {
    const { status, body } = await read('/api/quotes', {
      facts: { yearBuilt: 1950 },
      services: ['inspection', 'radon'],
      day: '2026-05-13',
      place: PLACE,
    });
    expect(status).toBe(200);
    expect(body.fee.lines.map((l: { rule: string; cents: number }) => [l.rule, l.cents])).toEqual([
      ['base', 46_500],
      ['older', 5_000],
      ['add-radon', 17_500],
    ]);
    expect(body.fee.totalCents).toBe(69_000);
    expect(body.fee.lines[0].assumption).toMatch(/living area 1,800 sq ft/);
    expect(body.fee.asks).toContain('livingArea');
    expect(body.requirements.find((r: { need: string }) => r.need === 'radon').reason).toMatch(/Radon/);
    // What a service more would add, in whole quarters of an hour; what is ordered adds nothing more.
    const adds = (key: string) => body.services.find((one: { key: string }) => one.key === key).adds;
    expect(['wood_insects', 'infrared', 'radon', 'inspection'].map(adds)).toEqual([
      { cents: 9_500, minutes: 15 },
      { cents: 15_000, minutes: 30 },
      null,
      null,
    ]);
  });
  it('says why a service is not offered: an outside provider with valid papers is missing', async () => {
    const { body } = await read('/api/quotes', {
      facts: { ...FACTS, waste: 'septic' },
      services: ['inspection'],
      day: '2026-05-13',
      place: null,
    });
    expect(body.services.find((s: { key: string }) => s.key === 'septic')).toMatchObject({
      offered: 'no',
      why: 'Not offered: no outside provider whose license and insurance are valid on that day.',
    });
    expect(body.services.find((s: { key: string }) => s.key === 'pool_spa')).toMatchObject({ offered: 'unknown' });
  });
  it('refuses facts that the catalogue lacks', async () => {
    expect(await read('/api/quotes', { facts: { color: 'red' }, services: [], day: '2026-05-13', place: null })).toMatchObject({
      status: 422,
      body: { code: 'not-valid' },
    });
  });
});

describe('starts', () => {
  it('come ranked with pairs and every part of the score, and weekends say why not', async () => {
    const { options, blockedDays } = await starts();
    expect(options.length).toBeGreaterThan(5);
    expect(options.map((o: { score: number }) => o.score)).toEqual(
      options.map((o: { score: number }) => o.score).sort((a: number, b: number) => a - b),
    );
    expect(Object.keys(options[0].parts).sort()).toEqual(['addedDriving', 'fairness', 'idleGap', 'overtime', 'rotation', 'wish']);
    expect(blockedDays.map((d: { day: string }) => d.day)).toEqual(['2026-05-16', '2026-05-17']);
    expect(blockedDays[0].reasons.length).toBeGreaterThan(0);
  });
  it('never offer a trainee without a license', async () => {
    const { options } = await starts({ days: 14, limit: 100 });
    expect(options.some((o: { first: string; second: string }) => [o.first, o.second].includes(CAST.tess.id))).toBe(false);
  });
  it('mark those whose report would come after the objection day', async () => {
    const { options } = await starts({ objectionOn: '2026-05-14' });
    expect(options.every((o: { marks: string[] }) => o.marks.length === 1)).toBe(true);
  });
});
