// Months of inspection, which chart fits them, and the words about groups.
import { describe, expect, it } from 'vitest';
import { chooseChart, withoutEarlyPraise } from '@backsight/domain/liability/frequency/choice';
import {
  groupName,
  groupSentence,
  inOrder,
  seasonOf,
  signalOf,
  signalSentence,
  type Told,
} from '@backsight/domain/liability/frequency/groups';
import { monthFigures, monthsBetween, ripenessOf, shiftMonth, sumOf } from '@backsight/domain/liability/frequency/months';

describe('months', () => {
  it('go on over the end of a year', () => {
    expect(shiftMonth('2026-01', -1)).toBe('2025-12');
    expect(shiftMonth('2025-11', 14)).toBe('2027-01');
    expect(monthsBetween('2025-11', '2026-02')).toEqual(['2025-11', '2025-12', '2026-01', '2026-02']);
    expect(monthsBetween('2026-02', '2026-01')).toEqual([]);
  });
  it.each([
    ['2026-05', null, 'running'],
    ['2026-06', 0.99, 'running'],
    ['2026-04', 0.89, 'young'],
    ['2026-04', 0.9, 'settled'],
    ['2025-05', null, 'young'],
    ['2025-04', null, 'settled'],
  ])('%s, of which %s is known, is %s in May 2026', (month, share, state) => {
    expect(ripenessOf(month, '2026-05', share).state).toBe(state);
  });
  it('stand beside the same month a year earlier, as it was known at the same age', () => {
    const row = (measure: string, origin: string, known: string, amount: number) => ({ measure, origin, known, amount });
    const rows = [
      row('jobs', '2025-03', '2025-03', 20),
      row('callbacks', '2025-03', '2025-04', 1),
      row('callbacks', '2025-03', '2025-11', 2),
      row('jobs', '2026-03', '2026-03', 25),
      row('callbacks', '2026-03', '2026-05', 1),
      row('paid', '2026-03', '2026-05', 30_000),
      row('reserved', '2026-03', '2026-05', 20_000),
      row('recovered', '2026-03', '2026-05', 5_000),
    ];
    const months = monthFigures(rows, { from: '2026-03', until: '2026-09', now: '2026-05' }, () => 0.5);
    expect(months.map(({ month }) => month)).toEqual(['2026-03', '2026-04', '2026-05']);
    expect(months[0]).toEqual({
      ...{ month: '2026-03', jobs: 25, callbacks: 1, incurredCents: 45_000, state: 'young', share: 0.5 },
      earlier: { month: '2025-03', jobs: 20, callbacks: 3, incurredCents: 0, callbacksAtSameAge: 1 },
    });
    expect(months[1]).toMatchObject({ jobs: 0, earlier: null });
    expect(sumOf([row('fees', '2026-03', '2026-03', 9)])).toEqual({ jobs: 0, callbacks: 0, incurredCents: 0 });
  });
});

describe('the chart', () => {
  const months = (counts: number[]) => counts.map((callbacks) => ({ jobs: 50, callbacks }));
  it.each([
    ['counts enough', months([2, 3, 1, 4, 2, 2, 3, 2, 1, 3, 2, 2]), 'u', /2\.3 callbacks on average.*\(u chart\)\.$/],
    ['few months', months([3, 3, 3]), 'u', /Limits from 3 months are first ones/],
    ['rare', months([0, 1, 0, 2, 1, 0]), 'g', /0\.7 callbacks on average.*g chart/],
    ['bunched', months([0, 0, 9, 0, 9, 0, 0, 9]), 'g', /5 of 8 months have no callback/],
    ['no job', [{ jobs: 0, callbacks: 0 }], 'g', /0\.0 callbacks/],
  ])('of months with %s', (_, settled, kind, sentence) => {
    const choice = chooseChart(settled);
    expect(choice.kind).toBe(kind);
    expect(choice.sentence).toMatch(sentence);
  });
  it('never praises what is still coming in, and still warns of it', () => {
    const signals = [{ side: 'above' }, { side: 'below' }];
    expect(
      withoutEarlyPraise(
        [
          { young: false, signals },
          { young: true, signals },
        ],
        'below',
      ).map((point) => point.signals.length),
    ).toEqual([2, 1]);
  });
});

describe('groups', () => {
  const told: Told = { name: 'Crawl space homes', count: 12, rate: 0.041, lower: 0.022, upper: 0.07, others: 0.02, adjusted: 0.21 };
  it.each([
    [told, 'Crawl space homes: 4.1 callbacks in 100 jobs, 95 % 2.2 to 7.0; others 2.0; could be chance (adjusted p 0.21).'],
    [
      { ...told, adjusted: 0.004 },
      'Crawl space homes: 4.1 callbacks in 100 jobs, 95 % 2.2 to 7.0; others 2.0; more than chance explains (adjusted p 0.004).',
    ],
    [
      { ...told, others: 0.09, adjusted: 0.0001 },
      'Crawl space homes: 4.1 callbacks in 100 jobs, 95 % 2.2 to 7.0; others 9.0; fewer than chance explains (adjusted p below 0.001).',
    ],
    [
      { ...told, others: null, adjusted: null },
      'Crawl space homes: 4.1 callbacks in 100 jobs, 95 % 2.2 to 7.0; there is nothing to compare it with.',
    ],
  ])('say %o', (each, sentence) => {
    expect(groupSentence('foundation', each)).toBe(sentence);
  });
  it('say a signal with its uncertainty first', () => {
    expect(signalSentence('foundation', { ...told, others: 0.02, adjusted: 0.004 })).toBe(
      'Between 2.2 and 7.0 callbacks in 100 jobs (95 %): Crawl space homes. 4.1 were counted, against 2.0 of others: more than chance explains (adjusted p 0.004).',
    );
  });
  it('are signals from an adjusted p of 0.05 down', () => {
    expect([0.05, 0.051].map((adjusted) => signalOf({ ...told, adjusted }))).toEqual(['more', null]);
  });
  it('count steps by the times they applied', () => {
    expect(groupSentence('step', { ...told, name: 'Reset', rate: 0.0031, lower: 0.0002, upper: 0.011, others: 0.0005 })).toMatch(
      /^Reset: 3\.1 failures in 1,000 times it applied, 95 % 0\.20 to 11\.0; other steps 0\.50;/,
    );
  });
  it('are called by their words and stand in their own order, never by rate', () => {
    expect(groupName('foundation', 'basement+crawl_space', new Map())).toBe('Basement and crawl space homes');
    expect(groupName('foundation', 'unknown', new Map())).toBe('Foundation not known');
    expect(groupName('service', 'radon', new Map([['radon', 'Radon']]))).toBe('Radon');
    expect(['2026-12', '2026-02', '2026-03', '2026-08', '2026-11'].map(seasonOf)).toEqual(['0', '0', '1', '2', '3']);
    const rows = ['unknown', '100+', '0-9'].map((value) => ({ value, name: groupName('age', value, new Map()) }));
    expect(inOrder('age', rows).map(({ value }) => value)).toEqual(['0-9', '100+', 'unknown']);
    expect(
      inOrder('pair', [
        { value: '1', name: 'B' },
        { value: '2', name: 'A' },
      ]).map(({ name }) => name),
    ).toEqual(['A', 'B']);
  });
});
