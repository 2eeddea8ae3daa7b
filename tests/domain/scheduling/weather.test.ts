// Times closed for weather: refused to the search and to a chosen start, by town, by span, and for outdoor work alone.
import { describe, expect, it } from 'vitest';
import { checkStart } from '@backsight/scheduling/checkStart';
import { findStarts } from '@backsight/scheduling/findStarts';
import type { WeatherClosure } from '@backsight/scheduling/world';
import { BIRCHMERE, MON, NINE, PORT_ANSEL, query, TUE, WED, world } from './cast.ts';

const TOWNS = [
  { name: 'Birchmere', ...BIRCHMERE },
  { name: 'Port Ansel', ...PORT_ANSEL },
];
const closure = (change: Partial<WeatherClosure> = {}): WeatherClosure => ({
  id: 'closed',
  fromDay: TUE,
  fromMinute: 480,
  untilDay: TUE,
  untilMinute: 780,
  towns: [],
  outdoorOnly: false,
  reason: 'ice',
  ...change,
});
const firm = (...closures: WeatherClosure[]) =>
  world({ closures, travel: { speeds: null, factors: [], towns: TOWNS, rules: [], service: false, cells: [] } });
const chosen = { day: TUE, start: NINE, first: 'ann', second: 'ben' };
const roof = { roofWork: { offsetMinutes: 60 } };

describe('a time closed for weather', () => {
  it('leaves the starts after it, and refuses a chosen one in it with the reason', () => {
    const { options } = findStarts(firm(closure()), query());
    expect(options.length).toBeGreaterThan(0);
    for (const { start } of options) expect(start).toBeGreaterThanOrEqual(780);
    expect(checkStart(firm(closure()), query(), chosen)).toMatchObject([
      { code: 'weather', sentence: 'Closed for weather from 8:00 AM to 1:00 PM: ice.' },
    ]);
  });
  it('is the binding reason of a day without a start', () => {
    const { options, blockedDays } = findStarts(firm(closure({ untilMinute: 960 })), query());
    expect(options).toEqual([]);
    expect(blockedDays).toEqual([{ day: TUE, reasons: ['Closed for weather from 8:00 AM to 4:00 PM: ice.'] }]);
  });
  it.each<[string, WeatherClosure, Parameters<typeof query>[0], boolean]>([
    ['a town that is closed', closure({ towns: ['Birchmere'] }), {}, true],
    ['another town', closure({ towns: ['Port Ansel'] }), {}, false],
    ['a house near the closed town', closure({ towns: ['Port Ansel'] }), { place: { lat: 44.08, lon: -89.1 } }, true],
    ['outdoor work', closure({ outdoorOnly: true }), roof, true],
    ['a visit indoors while outdoor work is closed', closure({ outdoorOnly: true }), {}, false],
    ['a span over midnight', closure({ fromDay: MON, untilDay: WED, untilMinute: 60 }), {}, true],
    ['the day before', closure({ fromDay: MON, untilDay: MON }), {}, false],
    ['a span that ends as the visit begins', closure({ untilMinute: NINE }), {}, false],
    ['a span that begins as the visit ends', closure({ fromMinute: 720, untilMinute: 800 }), {}, false],
  ])('knows %s', (_what, closed, change, refused) => {
    const codes = checkStart(firm(closed), query(change), chosen).map(({ code }) => code);
    expect(codes.includes('weather')).toBe(refused);
  });
});
