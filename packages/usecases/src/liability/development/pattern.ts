// How much of the end is usually known at which age, taken from the periods that are over.
import type { Development } from '@backsight/domain/liability/development/triangle';
import { cannot, type Estimate } from '@backsight/statistics/estimate';
import { chainLadder, type Caution, type DevelopmentFactor } from '@backsight/statistics/reserving/chainLadder';
import type { Triangle } from '@backsight/statistics/reserving/triangle';

export type Pattern = {
  /** Share of the end known at each age in whole periods, from age 0; above 1 where totals fall. Nothing is known at age 0. */
  shares: number[];
  /** Ages counted as in the triangle shown, from 1. */
  factors: DevelopmentFactor[];
  cautions: Caution[];
  /** What the factors come from: whole periods, without first and last ages that tell nothing. */
  triangle: Triangle;
};

/**
 * Volume-weighted factors of the whole periods as shares. First ages at which no period that goes on ever had anything are a share
 * of 0; nothing can be multiplied from there, but what is expected of the work can still be spread over the ages to come. Last ages of
 * which only periods that never had anything tell are left out: nothing is known to come then. No tail is added.
 */
export function patternOf({ origins }: Development): Estimate<Pattern> {
  const whole = origins.filter((origin) => origin.whole > 0).map(({ name, cells, whole: ages }) => ({ name, cells: cells.slice(0, ages) }));
  if (origins.length === 0) return cannot('no_exposure', 'nothing was inspected by then');
  if (whole.length === 0) return cannot('one_period', 'no period is over yet');
  if (origins.every(({ cells }) => cells.every((cell) => cell === 0)))
    return cannot('nothing_counted', 'nothing was reported by then, which is good, and does not say what is still to come');
  const rows = whole.map(({ cells }) => cells);
  const [bare, end] = [firstKnown(rows), lastTelling(rows)];
  const known = whole.filter(({ cells }) => cells.length > bare);
  const triangle = { origins: known.map(({ name }) => name), cumulative: known.map(({ cells }) => cells.slice(bare, end)) };
  const ladder = chainLadder(triangle);
  // The triangle shown begins with the ages that tell nothing.
  if (!ladder.ok) return { ...ladder, sentence: ladder.sentence.replaceAll(/(?<=\bperiod )\d+/g, (age) => String(Number(age) + bare)) };
  const ends = ladder.factors.map((_, at) => ladder.factors.slice(at).reduce((product, { factor }) => product * factor, 1));
  return {
    ok: true,
    shares: [0, ...Array.from({ length: bare }, () => 0), ...ends.map((end) => 1 / end), 1],
    factors: ladder.factors.map((factor) => ({ ...factor, from: factor.from + bare, to: factor.to + bare })),
    cautions: ladder.cautions,
    triangle,
  };
}

/** Age after which every period that was watched on had nothing and got nothing: its steps say nothing of how amounts grow. */
function lastTelling(rows: readonly (readonly number[])[]): number {
  const longest = Math.max(...rows.map((row) => row.length));
  for (let age = 1; age < longest; age++)
    if (rows.every((row) => row.length <= age || row.slice(age - 1).every((cell) => cell === 0))) return age;
  return longest;
}

/** First ages at which nothing was known of any period that goes on. */
function firstKnown(rows: readonly (readonly number[])[]): number {
  const longest = Math.max(...rows.map((row) => row.length));
  for (let age = 0; age < longest - 1; age++) if (rows.some((row) => row.length > age + 1 && row[age] !== 0)) return age;
  return 0;
}

/**
 * Share known at any age. Between whole ages what is still to come shrinks by the same part each day, where that can be, else the
 * share runs straight; within the first period it runs straight too: only the part of it that is over has been worked, which is on
 * average half as old, and what is known of it grows with its age.
 * After the treatment of periods that still run in D. R. Clark, "LDF curve-fitting and stochastic reserving: a maximum likelihood
 * approach", CAS Forum, Fall 2003.
 */
export function shareAt(shares: readonly number[], age: number): number {
  const before = Math.floor(age);
  const [low, high] = [shares[before] ?? 1, shares[before + 1] ?? 1];
  const gone = age - before;
  return before > 0 && low < 1 && high < 1 ? 1 - (1 - low) * ((1 - high) / (1 - low)) ** gone : low + gone * (high - low);
}
