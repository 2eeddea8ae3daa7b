// The minutes of a visit as rows that the owner sets.
import { describe, expect, it } from 'vitest';
import type { DurationRule } from '@backsight/domain/jobs/duration';
import { minutesRows, setMinutes } from '@backsight/domain/jobs/serviceMinutes';

const RULES: DurationRule[] = [
  { key: 'begin', label: 'Arrival', applies: { always: true }, minutes: 10 },
  { key: 'size', label: 'Inspection', applies: { always: true }, minutes: { fact: 'livingArea', per: 500, minutes: 18, roundUp: false } },
  { key: 'radon', label: 'Monitor', applies: { service: 'radon' }, minutes: 15 },
  { key: 'writing', label: 'Writing', applies: { always: true }, minutes: 75, report: true },
  { key: 'talk', label: 'Walk-through', applies: { always: true }, minutes: 20, walkThrough: true },
];
const SERVICES = [
  { key: 'radon', name: 'Radon' },
  { key: 'pool', name: 'Pool' },
];
const NAMES = { radon: 'Radon', pool: 'Pool' };

describe('minutes', () => {
  it('have a row for each rule, in words, and one for each service that nothing counts', () => {
    const rows = minutesRows(RULES, SERVICES, NAMES);
    expect(rows.map(({ key, minutes, of }) => [key, minutes, of])).toEqual([
      ['begin', 10, 'visit'],
      ['size', 18, 'visit'],
      ['radon', 15, 'visit'],
      ['writing', 75, 'report'],
      ['talk', 20, 'walk_through'],
      ['service-pool', 0, 'visit'],
    ]);
    expect(rows[1]!.each).toBe('each 500 sq ft of living area');
    expect(rows[2]!.when).toBe('radon ordered');
  });
  it('are set by key; a service that nothing counted gets a rule once it takes time', () => {
    const after = setMinutes(RULES, SERVICES, { size: 20, radon: 25, 'service-pool': 30, 'service-radon': 99, nothing: 5 });
    expect(after.map(({ key, minutes }) => [key, typeof minutes === 'number' ? minutes : minutes.minutes])).toEqual([
      ['begin', 10],
      ['size', 20],
      ['radon', 25],
      ['writing', 75],
      ['talk', 20],
      ['service-pool', 30],
    ]);
    expect(after.at(-1)).toMatchObject({ label: 'Pool', applies: { service: 'pool' } });
  });
  it('that stay say nothing new', () => expect(setMinutes(RULES, SERVICES, { radon: 15, 'service-pool': 0 })).toEqual(RULES));
});
