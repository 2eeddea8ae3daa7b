// Claim windows and cash ahead, by hand.
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { cashAhead, cashHistory, chanceOf, type CashHistory, type Flow } from '@backsight/domain/liability/cash';
import { claimWindow, later } from '@backsight/domain/liability/claimWindow';
import { byDay, exposureOf, type WindowSum } from '@backsight/domain/liability/exposure';
import type { Effect, RulePack, RuleRow } from '@backsight/domain/shared/rulePack';
import { STATE_PACKS } from '../../../prisma/seed/starter/statePacks.ts';

const TODAY = '2026-05-12';
const row = (key: string, effect: Effect): RuleRow => ({
  key,
  topic: 'claim',
  words: key,
  citation: key,
  certainty: 'memory',
  effect,
  fromDay: null,
  untilDay: null,
});
const years = (n: number, from: 'inspected' | 'completed' | 'delivered' | 'discovered'): RuleRow =>
  row(`${n} ${from}`, { kind: 'claim_time', years: n, from });
const pack = (jurisdiction: string, ...rows: RuleRow[]): RulePack => ({
  id: jurisdiction,
  jurisdiction,
  versionDay: '2020-01-01',
  name: jurisdiction,
  rows,
});
const sum = (more: Partial<WindowSum> = {}): WindowSum => ({
  jurisdiction: 'US-WI',
  inspectedOn: '2025-05-12',
  completedOn: null,
  deliveredOn: null,
  claimMonths: null,
  jobs: 1,
  signed: 1,
  capped: 0,
  capCents: 0,
  ...more,
});

describe('what was open at the end of a day that lies behind', () => {
  const packs = [pack('US-WI', years(2, 'inspected'), years(6, 'delivered'))];
  it('knows nothing of later inspections, and counts from what was handed over by then', () => {
    const rows = [
      sum({ inspectedOn: '2024-03-31', deliveredOn: '2024-04-20', jobs: 3 }),
      sum({ inspectedOn: '2024-04-01', deliveredOn: '2024-04-02', jobs: 5 }),
    ];
    const then = exposureOf(byDay(rows, '2024-03-31'), packs, '2024-03-31');
    expect([then.total.jobs, then.last]).toEqual([3, { short: '2026-03-31', long: '2030-03-31' }]);
    const now = exposureOf(byDay(rows, TODAY), packs, TODAY);
    expect([now.total.jobs, now.total.shortJobs, now.last]).toEqual([8, 0, { short: null, long: '2030-04-20' }]);
  });
  it('says no last day where rows below 0 have taken back all that ends on it', () => {
    const rows = [sum({ inspectedOn: '2026-05-01' }), sum({ inspectedOn: '2026-05-02' }), sum({ inspectedOn: '2026-05-02', jobs: -1 })];
    expect(exposureOf(rows, packs, TODAY).last).toEqual({ short: '2028-05-01', long: '2032-05-01' });
  });
});

describe('a day so many months later', () => {
  it.each([
    ['2024-02-29', 12, '2025-02-28'],
    ['2024-02-29', 48, '2028-02-29'],
    ['2025-08-31', 6, '2026-02-28'],
    ['2026-01-31', -12, '2025-01-31'],
    ['1900-01-31', 1, '1900-02-28'],
  ])('%s and %i months is %s', (day, months, found) => expect(later(day, months)).toBe(found));
  it('is what the calendar of luxon says, for every day of a leap year and the month before', () => {
    for (let at = DateTime.utc(2023, 12, 1); at.year < 2025; at = at.plus({ days: 1 }))
      for (const months of [1, 11, 12, 24, 72]) expect(later(at.toISODate()!, months)).toBe(at.plus({ months }).toISODate());
  });
});

describe('windows that are still open', () => {
  const rules = [pack('US-WI', years(2, 'completed'), years(6, 'completed'), row('cap', { kind: 'cap_barred' }))];
  it('are open to the end of their last day, by each reading', () => {
    const of = (inspectedOn: string) => exposureOf([sum({ inspectedOn })], rules, TODAY).total;
    expect(of('2024-05-12')).toMatchObject({ jobs: 1, shortJobs: 1 });
    expect(of('2024-05-11')).toMatchObject({ jobs: 1, shortJobs: 0 });
    expect(of('2020-05-12')).toMatchObject({ jobs: 1, shortJobs: 0 });
    expect(of('2020-05-11')).toMatchObject({ jobs: 0, shortJobs: 0 });
  });
  it('count from the later day that the rule names, and say in which month they close', () => {
    const { closing } = exposureOf(
      [sum({ inspectedOn: '2024-05-30', completedOn: '2024-06-02', jobs: 3, capped: 2, capCents: 900 })],
      rules,
      TODAY,
    );
    expect(closing.map(({ month }) => month)).toEqual([
      '2026-05',
      '2026-06',
      '2026-07',
      '2026-08',
      '2026-09',
      '2026-10',
      '2026-11',
      '2026-12',
      '2027-01',
      '2027-02',
      '2027-03',
      '2027-04',
    ]);
    expect(closing.filter(({ short, long }) => short.jobs + long.jobs > 0)).toEqual([
      { month: '2026-06', short: { jobs: 3, capCents: 900 }, long: { jobs: 0, capCents: 0 } },
    ]);
  });
  it('tell jobs with a limit, without one, and without a signed agreement apart, and limits that the state bars', () => {
    const { total } = exposureOf([sum({ jobs: 10, signed: 7, capped: 4, capCents: 4_000 })], rules, TODAY);
    expect(total).toEqual({ jobs: 10, shortJobs: 10, capCents: 4_000, noCap: 3, unsigned: 3, capBarred: 4 });
  });
  it('are shorter by the time that the agreement sets, unless the state bars that', () => {
    const agreed = sum({ claimMonths: 11 });
    expect(exposureOf([agreed], rules, TODAY).total).toMatchObject({ jobs: 1, shortJobs: 0 });
    const barred = [pack('US-WI', years(2, 'completed'), row('no-shorter', { kind: 'shorter_time_barred' }))];
    expect(exposureOf([agreed], barred, TODAY).total).toMatchObject({ jobs: 1, shortJobs: 1 });
  });
  it('cannot be told where no rule is on file, nor of what is still to come', () => {
    const found = exposureOf([sum({ jurisdiction: 'US-ZZ', jobs: 4 }), sum({ inspectedOn: '2026-06-01', jobs: 2 })], rules, TODAY);
    expect(found).toMatchObject({ withoutRule: 4, future: 2, total: { jobs: 2 } });
    expect(exposureOf([], rules, TODAY)).toMatchObject({ months: [], withoutRule: 0, sources: [] });
  });
  it('are in Wisconsin those of Wis. Stat. 440.977(1), and of 893.43 as the longer reading', () => {
    const found = exposureOf([sum()], STATE_PACKS.map((one) => ({ ...one, id: one.jurisdiction })) as RulePack[], TODAY);
    expect(found.sources).toEqual(['Wis. Stat. 440.977(1)', 'Wis. Stat. 893.43']);
    expect(
      claimWindow(
        [
          { years: 2, from: 'completed', source: '' },
          { years: 6, from: 'completed', source: '' },
        ],
        { inspectedOn: '2024-02-29', completedOn: null, deliveredOn: null, discoveredOn: null },
      ),
    ).toMatchObject({
      shortUntil: '2026-02-28',
      longUntil: '2030-02-28',
    });
  });
});

describe('cash ahead', () => {
  const flow = (callbackId: string, day: string, reserved: number, paid = 0): Flow => ({ callbackId, day, reserved, paid });
  /** Eight callbacks of 100.00 each, set aside on the first; of the first three half leaves within 30 days, and all of the fourth within 90; the last was not followed for long enough. */
  const flows = Array.from({ length: 8 }, (_, n) => flow(`c${n}`, '2025-01-01', 10_000)).concat(
    ['c0', 'c1', 'c2'].map((id) => flow(id, '2025-01-20', -5_000, 5_000)),
    [flow('c3', '2025-03-15', -10_000, 10_000), flow('c4', '2025-02-10', -10_000), flow('young', '2025-12-20', 10_000)],
  );
  const history = cashHistory(flows, '2024-12-01', '2025-12-31');
  it('knows which part of what stood as long left within a span', () => {
    expect(history.left.filter(({ age }) => age === 0)).toEqual([
      { age: 0, span: 30, callbacks: 8, stood: 80_000, left: 15_000 },
      { age: 0, span: 90, callbacks: 8, stood: 80_000, left: 25_000 },
    ]);
    expect(history.left.find(({ age, span }) => age === 30 && span === 90)).toEqual({
      age: 30,
      span: 90,
      callbacks: 8,
      stood: 65_000,
      left: 10_000,
    });
    expect(chanceOf(history, '2026-05-01', TODAY, 30)).toEqual({ share: 15 / 80, callbacks: 8, ages: 'newly set aside' });
  });
  it('adds what is set aside times its chance to the mean of what left unforeseen, with the range of both', () => {
    const told: CashHistory = {
      ...history,
      new: [
        { span: 30, cents: [0, 3_000, 0, 0, 6_000, 0] },
        { span: 90, cents: [1, 1, 1] },
      ],
    };
    const cash = cashAhead([{ cents: 40_000, since: '2026-05-01' }], told, TODAY, 30);
    // 40,000 x 15/80 = 7,500; mean 1,500; variance 40,000^2 x 0.1875 x 0.8125 + 6,300,000 x 7/6 = 251,100,000; t of 5 degrees 1.476 x 15,846.1 = 23,388.9
    expect(cash).toEqual({
      ok: true,
      span: 30,
      cents: 9_000,
      lower: 0,
      upper: 32_389,
      fromReserves: 7_500,
      fromNew: 1_500,
      stretches: 6,
      ofTen: 7,
    });
    expect(cashAhead([], told, TODAY, 90)).toEqual({
      ok: false,
      span: 90,
      sentence: 'Cannot be estimated because only 3 whole stretches of 90 days lie behind the firm, and 4 are needed.',
    });
  });
  it('counts as unforeseen what leaves beyond what stood, and a payment that was taken back and made again once', () => {
    const paid = [
      flow('a', '2025-12-20', 0, 700),
      flow('b', '2025-11-01', 1_000),
      flow('b', '2025-12-10', -1_000, 1_500),
      flow('c', '2025-12-11', 0, 900),
      flow('c', '2025-12-12', 0, -900),
      flow('c', '2025-12-13', 0, 900),
    ];
    expect(cashHistory(paid, '2025-10-01', '2025-12-31').new[0]).toEqual({ span: 30, cents: [700 + 500 + 900, 0, 0] });
  });
  it('says that it cannot be estimated of an empty firm, or with one callback', () => {
    expect(cashAhead([], cashHistory([], null, '2025-12-31'), TODAY, 30)).toMatchObject({
      ok: false,
      sentence: expect.stringContaining('no whole stretch of 30 days lies behind the firm'),
    });
    const one = cashHistory([flow('a', '2025-01-01', 500)], '2024-01-01', '2025-12-31');
    expect(cashAhead([{ cents: 500, since: '2025-01-01' }], one, TODAY, 30)).toMatchObject({
      ok: false,
      sentence: expect.stringContaining('fewer than 5 callbacks'),
    });
  });
});
