// What can be said of the effect of a change, and when: from jobs and records in memory.
import { describe, expect, it } from 'vitest';
import { checkFailures, checkShare, compareRates, jobsPerYear, spanOf, type Span } from '@backsight/usecases/callbacks/steps/effect';
import { workingMeasure } from '@backsight/usecases/callbacks/steps/working';
import type { ExposedJob, StepRecord } from '@backsight/store/callbacks/effect';

const DAY = 86_400_000;
const now = new Date('2026-05-12T15:00:00Z');
const daysAgo = (days: number): Date => new Date(now.getTime() - days * DAY);
const job = (days: number, ...failedAfter: number[]): ExposedJob => ({
  jobId: `${days}`,
  inspectedAt: daysAgo(days),
  failures: failedAfter.map((after) => new Date(daysAgo(days).getTime() + after * DAY)),
  nearMisses: 0,
});
const span = (failures: number, jobs: number): Span => ({ failures, jobs, nearMisses: 0 });

describe('the effect on callbacks', () => {
  it('gives every job the same time: young jobs are not counted, late callbacks neither', () => {
    const jobs = [job(400, 10), job(300, 120), job(91, 5), job(90), job(89, 1), job(3)];
    expect(spanOf(jobs, 90, now)).toEqual({ jobs: 4, failures: 2, nearMisses: 0 });
    expect(spanOf(jobs, 365, now)).toEqual({ jobs: 1, failures: 1, nearMisses: 0 });
    expect(spanOf([], 90, now)).toEqual({ jobs: 0, failures: 0, nearMisses: 0 });
  });
  it('counts jobs in a year at the pace of the last one', () => {
    expect(
      jobsPerYear(
        Array.from({ length: 730 }, (_, i) => job(730 - i)),
        now,
      ),
    ).toBeCloseTo(365.25, -1);
    expect(jobsPerYear([job(60), job(30), job(1)], now)).toBeCloseTo((3 * 365.25) / 60, 6);
    expect(jobsPerYear([job(29), job(1)], now)).toBe(null);
    expect(jobsPerYear([], now)).toBe(null);
  });

  const compare = (before: Span, after: Span, perYear: number | null = 700, inForce = true, full = false) =>
    compareRates({ before, after, perYear, days: 90, inForce, full });
  it.each([
    {
      name: 'nothing in force',
      found: compare(span(4, 2000), span(0, 0), 700, false),
      verdict: 'not_yet',
      words: /Nothing is in force yet/,
    },
    {
      name: 'no job at all',
      found: compare(span(0, 0), span(0, 0), null),
      verdict: 'too_early',
      words: /cannot be estimated because no failure was counted before/,
    },
    {
      name: 'one job after',
      found: compare(span(1, 1), span(0, 1), null),
      verdict: 'too_early',
      words: /cannot be estimated because this step has been worked for less than a month/,
    },
    // 77 failures in all at equal exposure (see tests/published): 51 in 25,667 jobs before, and as many jobs after.
    {
      name: 'four in 2,000',
      found: compare(span(4, 2000), span(0, 300)),
      verdict: 'too_early',
      words: /takes about 25,667 jobs on each side, some 77 failures in all: at 700 jobs a year about 37 years for one side/,
    },
    {
      name: 'forty in 2,000',
      found: compare(span(40, 2000), span(2, 130)),
      verdict: 'too_early',
      words: /takes about 3,43\d jobs after the change, 3,30\d more than there are: at 700 jobs a year about 5 years/,
    },
    {
      name: 'fewer',
      found: compare(span(60, 1000), span(20, 1000)),
      verdict: 'fewer',
      words: /Fewer than chance alone would give \(p = 0\.000\)/,
    },
    { name: 'more', found: compare(span(20, 1000), span(60, 1000)), verdict: 'more', words: /look at the change again/ },
    {
      name: 'enough, and the same',
      found: compare(span(80, 2000), span(40, 1000)),
      verdict: 'no_difference',
      words: /no difference shows/,
    },
    {
      name: 'as many as are counted, and the same',
      found: compare(span(20, 9900), span(18, 9800), 20_000, true, true),
      verdict: 'no_difference',
      words: /on either side as many as are counted/,
    },
    {
      name: 'as many as are counted, and fewer',
      found: compare(span(60, 9900), span(20, 9800), 20_000, true, true),
      verdict: 'fewer',
      words: /Fewer than chance alone would give/,
    },
  ])('says plainly: $name ($verdict)', ({ found, verdict, words }) => {
    expect(found.verdict).toBe(verdict);
    expect(found.sentence).toMatch(words);
    expect(JSON.stringify(found)).not.toMatch(/NaN|Infinity/);
  });

  it('watches for more failures at every look, and says when it cannot', () => {
    expect(checkFailures({ before: span(0, 500), after: span(2, 100) }).decision).toBe('cannot');
    expect(checkFailures({ before: span(10, 1000), after: span(0, 0) })).toMatchObject({ decision: 'go_on', expected: 0, statistic: 0 });
    expect(checkFailures({ before: span(10, 1000), after: span(7, 250) })).toMatchObject({
      decision: 'go_on',
      statistic: expect.closeTo(2.7073, 4),
    });
    expect(checkFailures({ before: span(10, 1000), after: span(9, 250) }).decision).toBe('worse');
    expect(checkFailures({ before: span(10, 1000), after: span(9, 600) }).decision).toBe('ended');
  });
});

describe('the evidence of the records', () => {
  const record = (days: number, more: Partial<StepRecord> = {}): StepRecord => ({
    ...{ openedAt: daysAgo(days), noEntry: false, endedBefore: false, differs: false, outside: false, partnerDiffers: false },
    ...{ couldNot: false, notRestored: false, old: days % 2 === 0, ...more },
  });
  const many = (count: number, bad: number, from: number) =>
    Array.from({ length: count }, (_, i) => record(from - i, { noEntry: i < bad }));

  it('is a share with limits, before and after, week by week, Mondays first', () => {
    const found = workingMeasure(many(40, 20, 200), many(30, 3, 60), 'America/Chicago');
    expect(found).toMatchObject({
      before: { count: 20, total: 40 },
      after: { count: 27, total: 30 },
      difference: { difference: expect.closeTo(0.4, 9) },
    });
    expect(found.p).toBeLessThan(0.01);
    expect(found.likeAge!.oddsRatio).toBeGreaterThan(1);
    expect(found.parts.find(({ key }) => key === 'noEntry')).toMatchObject({
      before: { count: 20, total: 40 },
      after: { count: 3, total: 30 },
    });
    expect(found.weeks.reduce((sum, { total }) => sum + total, 0)).toBe(70);
    expect(found.weeks.every(({ week }) => new Date(`${week}T12:00:00Z`).getUTCDay() === 1)).toBe(true);
    expect(found.sentence).toMatch(/in 27 of 30 sealed records \(90 %\); before the change in 20 of 40 \(50 %\)/);
  });
  it('has an answer without records too', () => {
    const none = workingMeasure([], [], 'America/Chicago');
    expect(none).toMatchObject({ before: null, after: null, difference: null, p: null, likeAge: null, weeks: [] });
    expect(none.sentence).toMatch(/cannot be estimated yet/);
    expect(workingMeasure([], many(1, 0, 1), 'America/Chicago')).toMatchObject({ after: { count: 1, total: 1 }, p: null });
  });
  it('counts "could not" with its reason as evidence', () => {
    expect(workingMeasure([], [record(1, { couldNot: true }), record(2, { differs: true })], 'UTC')).toMatchObject({
      after: { count: 1, total: 2 },
    });
  });
  it('decides at the first line that is passed, or says why it cannot', () => {
    expect(checkShare(many(19, 9, 200), many(5, 1, 20))).toMatchObject({
      decision: 'cannot',
      sentence: expect.stringMatching(/only 19 sealed records/),
    });
    expect(checkShare(many(40, 0, 200), many(5, 1, 20))).toMatchObject({
      decision: 'cannot',
      sentence: expect.stringMatching(/every record met/),
    });
    expect(checkShare(many(40, 16, 200), [])).toMatchObject({ decision: 'go_on', looked: 0, usual: 0.4, hoped: 0.2 });
    const good = checkShare(many(40, 16, 200), many(40, 0, 60));
    expect(good).toMatchObject({ decision: 'better', decidedAt: 10 });
    expect(checkShare(many(40, 16, 200), many(40, 30, 60))).toMatchObject({ decision: 'not_better' });
  });
});
