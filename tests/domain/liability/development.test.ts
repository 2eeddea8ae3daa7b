// From figures to triangles, which method each period gets, and a sentence where there is no number.
import { describe, expect, it } from 'vitest';
import { choose } from '@backsight/domain/liability/development/choice';
import { lastDayOf, nameOf, periodOf, standing } from '@backsight/domain/liability/development/periods';
import { development, type FigureRow } from '@backsight/domain/liability/development/triangle';
import { estimate } from '@backsight/usecases/liability/development/estimate';
import { outstanding } from '@backsight/usecases/liability/development/outstanding';
import { jobsOf, rowsOf } from './developmentRows.ts';

const row = (measure: string, origin: string, known: string, amount: number): FigureRow => ({ measure, origin, known, amount });

describe('periods', () => {
  it.each([
    ['2026-11', 'month', 'Nov 2026', '2026-11-30'],
    ['2026-11', 'quarter', 'Q4 2026', '2026-12-31'],
    ['2024-02-29', 'month', 'Feb 2024', '2024-02-29'],
    ['2026-01-01', 'year', '2026', '2026-12-31'],
  ] as const)('%s lies in the %s %s, which ends on %s', (month, grain, name, end) => {
    const period = periodOf(month, grain);
    expect([nameOf(period, grain), lastDayOf(period, grain)]).toEqual([name, end]);
    expect(periodOf(end, grain)).toBe(period);
    expect(standing(end, grain)).toEqual({ period, gone: 1 });
  });
  it('counts the day itself as gone', () => expect(standing('2026-10-01', 'quarter').gone).toBeCloseTo(1 / 92, 12));
});

describe('a triangle', () => {
  const rows = [
    row('jobs', '2026-01', '2026-01', 40),
    row('jobs', '2026-08', '2026-08', 30),
    row('callbacks', '2026-02', '2026-05', 1),
    row('callbacks', '2026-02', '2026-08', -1), // a duplicate, found later
    row('callbacks', '2026-03', '2025-12', 1), // told before the inspection
    row('callbacks', '2027-01', '2026-08', 1), // not inspected yet
    row('reserved', '2026-03', '2026-03', 50_000),
    row('paid', '2026-03', '2026-08', 30_000),
    row('reserved', '2026-03', '2026-08', -50_000),
    row('recovered', '2026-03', '2026-09', 10_000),
  ];
  const asked = { grain: 'quarter', asOf: '2026-08-15' } as const;
  it('adds up what became known, column by column', () => {
    const counts = development(rows, { ...asked, of: 'callbacks' });
    expect(counts.origins.map(({ name, jobs, cells, whole }) => [name, jobs, cells, whole])).toEqual([
      ['Q1 2026', 40, [1, 2, 1], 2],
      ['Q2 2026', 0, [0, 0], 1],
      ['Q3 2026', 30, [0], 0],
    ]);
    expect(counts).toMatchObject({ wholeUntil: '2026-06-30', notInspected: 1, folded: null });
    expect(counts.origins[0]!.age).toBeCloseTo(2 + 46 / 92, 12);
  });
  it('adds up paid, set aside and recovered with their signs, and nothing of later months', () => {
    expect(development(rows, { ...asked, of: 'incurred' }).origins[0]!.cells).toEqual([50_000, 50_000, 30_000]);
    expect(development(rows, { ...asked, of: 'incurred', asOf: '2026-09-30' }).origins[0]).toMatchObject({
      cells: [50_000, 50_000, 20_000],
      whole: 3,
    });
    expect(development(rows, { ...asked, of: 'paid', asOf: '2026-09-30' }).origins[0]!.latest).toBe(20_000);
    expect(
      development(rows, { grain: 'month', asOf: '2026-03-31', of: 'incurred' }).origins.map(({ name, latest }) => [name, latest]),
    ).toEqual([
      ['Jan 2026', 0],
      ['Feb 2026', 0],
      ['Mar 2026', 50_000],
    ]);
  });
  it('folds what is older than it shows, and loses nothing of it', () => {
    const long = [row('jobs', '2001-05', '2001-05', 9), row('paid', '2001-05', '2002-01', 700), row('paid', '2015-05', '2016-01', 40)];
    const of = development(long, { grain: 'year', of: 'paid', asOf: '2026-11-28' });
    expect(of.origins).toHaveLength(15);
    expect(of.folded).toEqual({ name: 'before 2012', periods: 11, jobs: 9, callbacks: 0, latest: 700 });
    expect(of.origins.reduce((sum, { latest }) => sum + latest, 0)).toBe(40);
  });
  it('has no row where nothing was ever inspected', () =>
    expect(development([], { ...asked, of: 'incurred' })).toMatchObject({ origins: [], folded: null, notInspected: 0 }));
});

describe('the choice of a method', () => {
  const usual = { shareKnown: 0.8, callbacks: 12, latest: 100, running: false };
  it.each([
    [usual, false, 'chain_ladder', '12 callbacks, usually 80 % of all'],
    [{ ...usual, callbacks: 4 }, false, 'cape_cod', '4 callbacks are known: too few to multiply'],
    [{ ...usual, callbacks: 1 }, false, 'cape_cod', 'one callback is known: too few to multiply'],
    [{ ...usual, callbacks: 0, latest: 0, shareKnown: 0.95 }, false, 'chain_ladder', 'nearly all is known'],
    [{ ...usual, shareKnown: 1.47 }, false, 'chain_ladder', 'totals of this age usually fall'],
    [{ ...usual, shareKnown: 0.49 }, false, 'cape_cod', 'less than half is usually known (49 %)'],
    [{ ...usual, running: true }, false, 'cape_cod', 'the quarter still runs'],
    [{ ...usual, running: true }, true, 'bornhuetter_ferguson', 'the quarter still runs'],
    [{ ...usual, latest: 0 }, false, 'cape_cod', 'there is nothing yet that could be multiplied'],
  ] as const)('%j, expected beforehand: %s', (of, expected, method, why) =>
    expect(choose(of, 'quarter', expected)).toEqual({ method, why }),
  );
});

describe('estimates', () => {
  const asOf = '2004-12-31';
  const made = (
    triangle: number[][],
    more: FigureRow[] = [],
    choice: 'each' | 'chain_ladder' | 'cape_cod' | 'bornhuetter_ferguson' = 'chain_ladder',
  ) =>
    estimate(development([...rowsOf(triangle), ...jobsOf([100, 100, 100, 100]), ...more], { grain: 'year', of: 'incurred', asOf }), {
      choice,
    });

  it.each([
    ['nothing at all', [[0, 0, 0, 0], [0, 0, 0], [0, 0], [0]], 'nothing was reported by then'],
    ['one period and its jobs', [[0, 0, 0, 500]], 'nothing was known at period 1'],
    ['a total below nothing', [[10, 20, -5, 30], [10, 20, 30], [10, 20], [10]], 'the total of 2001 is below 0 at period 3'],
    ['totals that fall to nothing', [[10, 0, 0, 0], [10, 0, 0], [10, 0], [10]], 'has nothing at period 2'],
    ['totals that fall to nothing after an empty first year', [[0, 10, 0, 0], [0, 10, 0], [0, 10], [0]], 'has nothing at period 3'],
  ])('say why not: %s', (_, triangle, why) => expect(made(triangle)).toMatchObject({ ok: false, sentence: expect.stringContaining(why) }));

  it('say why not, of a firm without jobs or without a period that is over', () => {
    const of = (rows: FigureRow[], day: string) =>
      estimate(development(rows, { grain: 'year', of: 'callbacks', asOf: day }), { choice: 'each' });
    expect(of([], asOf)).toMatchObject({ code: 'no_exposure', sentence: 'Cannot be estimated because nothing was inspected by then.' });
    expect(of(jobsOf([1]), '2001-06-01')).toMatchObject({ code: 'one_period' });
    expect(of([...jobsOf([1]), row('callbacks', '2001-05', '2001-06', 1)], '2001-12-31')).toMatchObject({ code: 'one_row' });
  });

  it('give the chain ladder but no error of it where an origin grew from nothing', () => {
    const found = made([[0, 400, 400, 400], [100, 100, 100], [100, 200], [100]]);
    expect(found).toMatchObject({ ok: true, noError: expect.stringContaining('2001 had nothing at period 1 and something after') });
    if (found.ok)
      expect([found.totals.standardError, found.totals.range, Math.round(found.origins[3]!.ultimate)]).toEqual([null, null, 350]);
  });

  it('leave out first ages at which nothing ever was, and last ones of which only empty periods tell', () => {
    const found = made([[0, 0, 0, 0], [0, 40, 80], [0, 40], [0]], [], 'cape_cod');
    if (!found.ok) throw new Error(found.sentence);
    expect(found.pattern.shares).toEqual([0, 0, 0.5, 1]);
    expect(found.pattern.factors).toMatchObject([{ from: 2, to: 3, factor: 2, rows: 2 }]);
    // 120 known of 100 + 100 + 50 + 0 ripe jobs: 48 per 100; half of it is to come of the third year, all of the fourth.
    expect(found.expectedPer100).toBeCloseTo(48, 6);
    expect(found.origins.map(({ unreported }) => Math.round(unreported))).toEqual([0, 0, 24, 48]);
    expect(found.origins[3]!.projected.map(Math.round)).toEqual([24, 48, 48]);
    expect(made([[0, 0, 0, 0], [0, 40, 80], [0, 40], [0]])).toMatchObject({ ok: true });
    expect(made([[0, 0, 0, 0], [0, 40, 80], [0, 40], [5]])).toMatchObject({ ok: false, code: 'zero_denominator' });
  });

  it('of a young period come from its jobs: more jobs, more to come; totals that fall are taken back', () => {
    const young = made(
      [[100, 200, 200, 200], [100, 200, 200], [100, 200], [100]],
      [row('jobs', '2004-05', '2004-05', 100)],
      'bornhuetter_ferguson',
    );
    if (!young.ok) throw new Error(young.sentence);
    // 600 known of 300 jobs and 100 of half of 200: 175 per 100; of the newest 200 jobs half of 350 is to come.
    expect([young.expectedPer100, young.origins[3]!.unreported]).toEqual([175, 175]);
    const falls = made([[400, 200, 200, 200], [400, 200, 200], [400, 200], [400]]);
    expect(falls.ok && falls.totals.unreported).toBe(-200);
    expect(falls.ok && [falls.totals.range, falls.pattern.cautions[0]?.code]).toEqual([null, 'totals_fell']);
  });

  it('take half of a running year as half way to its end', () => {
    const rows = [...rowsOf([[100, 200], [100]]), ...jobsOf([100, 100])];
    const found = estimate(development(rows, { grain: 'year', of: 'paid', asOf: '2002-07-02' }), { choice: 'cape_cod' });
    expect(found).toMatchObject({ ok: false, code: 'one_row' }); // only 2001 is over
    const later = estimate(
      development([...rowsOf([[100, 200, 200], [100, 200], [50]]), ...jobsOf([100, 100, 50])], {
        grain: 'year',
        of: 'paid',
        asOf: '2003-07-02',
      }),
      { choice: 'cape_cod' },
    );
    if (!later.ok) throw new Error(later.sentence);
    const gone = 183 / 365;
    expect(later.pattern.shares).toEqual([0, 0.5, 1]);
    expect(later.origins.map(({ shareKnown }) => shareKnown)).toEqual([1, 0.5 + 0.5 * gone, 0.5 * gone]);
  });
});

describe('what work already done may still cost', () => {
  it('comes from amounts where they show how they grow, with a range', () => {
    const rows = [0, 1, 2, 3, 4, 5].flatMap((at) => {
      const origin = `${2025 + Math.floor(at / 4)}-${String((at % 4) * 3 + 1).padStart(2, '0')}`;
      const next = `${2025 + Math.floor((at + 1) / 4)}-${String(((at + 1) % 4) * 3 + 1).padStart(2, '0')}`;
      return [
        row('jobs', origin, origin, 100),
        row('callbacks', origin, origin, 6),
        row('reserved', origin, origin, 100_000 + at * 1000),
        ...(at < 5 ? [row('paid', origin, next, 100_000 - at * 900)] : []),
      ];
    });
    const found = outstanding(rows, '2026-06-30');
    expect(found).toMatchObject({ ok: true, method: 'amounts', callbacksToCome: 0, reservedCents: 615_000 });
    if (!found.ok) return;
    expect(found.amountCents).toBeCloseTo(101_137, -3);
    expect(found.rangeCents!.lower).toBeLessThan(found.amountCents);
    expect(found.sentence).toMatch(/^About \$1,0\d\d\.\d\d beyond what is paid and set aside.*; in about 3 of 4 such cases between \$/);
  });
  it('comes from callbacks times their cost where amounts are too few, and else says why not', () => {
    const rows = [
      ...['2026-01', '2026-04', '2026-07'].flatMap((origin) => [row('jobs', origin, origin, 100), row('callbacks', origin, origin, 5)]),
      row('callbacks', '2026-01', '2026-04', 5),
      row('callbacks', '2026-04', '2026-07', 5),
      row('paid', '2026-07', '2026-07', 50_000),
    ];
    const found = outstanding(rows, '2026-09-30');
    // Half is known after the first quarter: 5 are still to come of the newest, at 50,000 / 25 each.
    expect(found).toMatchObject({ ok: true, method: 'callbacks_by_cost', amountCents: 10_000, rangeCents: null });
    expect(found.ok && found.callbacksToCome).toBeCloseTo(5, 9);
    expect(outstanding([], '2026-09-30')).toMatchObject({
      ok: false,
      sentence: 'Cannot be estimated because nothing was inspected by then.',
    });
  });
});
