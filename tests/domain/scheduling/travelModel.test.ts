// Where a driving time comes from: what was said by hand, then the road service, then the fitted estimate.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { driveMinutes, estimatedTravel, greatCircleKm } from '@backsight/scheduling/travel';
import {
  atSpeed,
  exactMinutes,
  leastCertain,
  placeKey,
  placeOfKey,
  townOf,
  travelOf,
  type TravelData,
} from '@backsight/scheduling/travelModel';
import { BIRCHMERE, PORT_ANSEL } from './cast.ts';

const TOWNS = [
  { name: 'Birchmere', ...BIRCHMERE },
  { name: 'Port Ansel', ...PORT_ANSEL },
];
const data = (part: Partial<TravelData>): TravelData => ({
  speeds: null,
  factors: [],
  towns: TOWNS,
  rules: [],
  service: false,
  cells: [],
  ...part,
});
const area = (place: { lat: number; lon: number }) => ({ ...place, radiusKm: 2 });
const cell = (seconds: number) => [placeKey(BIRCHMERE), placeKey(PORT_ANSEL), seconds] as const;
const BRIDGE = { kind: 'between', a: area(BIRCHMERE), b: area(PORT_ANSEL), minutes: 31 } as const;
const SHORE = { kind: 'within', a: area(PORT_ANSEL), percent: 50 } as const;

describe('driving times of a firm', () => {
  const said = (part: Partial<TravelData>, back = false) => {
    const travel = travelOf(data(part));
    const [from, to] = back ? [PORT_ANSEL, BIRCHMERE] : [BIRCHMERE, PORT_ANSEL];
    return [travel.minutes(from, to), travel.sourceOf(from, to)];
  };
  const plain = estimatedTravel.minutes(BIRCHMERE, PORT_ANSEL);

  it.each<[string, Partial<TravelData>, (string | number)[]]>([
    ['nothing known: the estimate', {}, [plain, 'estimate']],
    ['the road service: its seconds and the parking, up to whole minutes', { cells: [cell(841)] }, [18, 'engine']],
    ['by hand before the road service', { cells: [cell(841)], rules: [BRIDGE] }, [31, 'manual']],
    ['a slow area makes the road time longer', { cells: [cell(600)], rules: [SHORE] }, [18, 'manual']],
    ['a fixed time is not made longer', { rules: [SHORE, BRIDGE] }, [31, 'manual']],
    ['the first rule that fits counts', { rules: [{ ...BRIDGE, minutes: 40 }, BRIDGE] }, [40, 'manual']],
    ['a rule elsewhere stays quiet', { rules: [{ ...SHORE, a: area({ lat: 45, lon: -90 }) }] }, [plain, 'estimate']],
    [
      'another factor than that of the two towns stays quiet',
      { factors: [{ a: 'Birchmere', b: 'Birchmere', factor: 2 }] },
      [plain, 'estimate'],
    ],
  ])('%s', (_, part, answer) => expect(said(part)).toEqual(answer));

  it('takes a rule both ways, a cell only the way it was asked', () => {
    expect(said({ rules: [BRIDGE] }, true)).toEqual([31, 'manual']);
    expect(said({ cells: [cell(841)] }, true)).toEqual([plain, 'estimate']);
  });
  it('uses fitted speeds and the factor between two towns, for the estimate only', () => {
    const slow = Array.from({ length: 6 }, () => 30);
    const km = greatCircleKm(BIRCHMERE, PORT_ANSEL);
    expect(said({ speeds: slow })).toEqual([driveMinutes(km, slow), 'estimate']);
    const factors = [{ a: 'Port Ansel', b: 'Birchmere', factor: 2 }];
    expect(Math.abs(Number(said({ factors })[0]) - (2 * (plain - 3) + 3))).toBeLessThanOrEqual(1);
    expect(said({ factors, cells: [cell(841)] })).toEqual([18, 'engine']);
  });
  it('is no drive at the same place, whatever is said', () => {
    expect(travelOf(data({ rules: [{ ...BRIDGE, b: area(BIRCHMERE) }] })).minutes(BIRCHMERE, { ...BIRCHMERE })).toBe(0);
  });
  it('without data is the estimate', () => expect(travelOf().minutes(BIRCHMERE, PORT_ANSEL)).toBe(plain));
  it('calls drives as certain as the least certain of them', () => {
    expect(leastCertain(['manual', 'engine', 'estimate'])).toBe('estimate');
    expect(leastCertain(['manual', 'engine'])).toBe('engine');
    expect(leastCertain(['manual', 'manual'])).toBe('manual');
    expect(leastCertain([])).toBeNull();
  });
});

describe('the same drives at another speed', () => {
  const times = (part: Partial<TravelData>, percent: number) => {
    const minutes = exactMinutes(atSpeed(data(part), percent));
    return minutes(BIRCHMERE, PORT_ANSEL);
  };
  const road = exactMinutes(data({}))(BIRCHMERE, PORT_ANSEL) - 3;
  it.each<[string, Partial<TravelData>, number]>([
    ['the estimate, but for the parking', {}, 2 * road + 3],
    ['answers of the road service', { cells: [cell(600)] }, 23],
    ['what was said by hand', { rules: [BRIDGE] }, 62],
    ['a slow area stays slow', { cells: [cell(600)], rules: [SHORE] }, 33],
  ])('takes twice as long at half the speed: %s', (_, part, answer) => expect(times(part, 50)).toBeCloseTo(answer, 6));
  it('is the same at the same speed', () => expect(times({}, 100)).toBeCloseTo(road + 3, 9));
  it('tells a tenth on drives so short that whole minutes do not', () => {
    const near = { lat: BIRCHMERE.lat + 0.0036, lon: BIRCHMERE.lon };
    const [now, then] = [data({}), atSpeed(data({}), 90)];
    expect(travelOf(then).minutes(BIRCHMERE, near)).toBe(travelOf(now).minutes(BIRCHMERE, near));
    expect(exactMinutes(then)(BIRCHMERE, near)).toBeGreaterThan(exactMinutes(now)(BIRCHMERE, near) + 0.15);
  });
});

describe('keys of places', () => {
  it('are the same within 4 decimals and stand for the rounded place, everywhere on Earth', () => {
    expect(placeKey({ lat: 44.03001, lon: -88.54004 })).toBe(placeKey({ lat: 44.02996, lon: -88.53996 }));
    expect(placeKey({ lat: 44.03, lon: -88.54 })).not.toBe(placeKey({ lat: 44.0301, lon: -88.54 }));
    const degrees = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
    fc.assert(
      fc.property(degrees(90), degrees(180), (lat, lon) => {
        const key = placeKey({ lat, lon });
        const place = placeOfKey(key);
        expect(Number.isSafeInteger(key)).toBe(true);
        expect(Math.abs(place.lat - lat)).toBeLessThan(0.000051);
        expect(Math.abs(place.lon - lon)).toBeLessThan(0.000051);
      }),
    );
  });
  it('name the nearest town, or none', () => {
    expect(townOf({ lat: PORT_ANSEL.lat, lon: PORT_ANSEL.lon + 0.01 }, TOWNS)).toBe('Port Ansel');
    expect(townOf(BIRCHMERE, [])).toBe('');
  });
});
