// What each period of inspection is likely to end with: the method of each chosen and explained, or one method for all.
import { choose, METHODS, type Method } from '@backsight/domain/liability/development/choice';
import type { Development, Origin } from '@backsight/domain/liability/development/triangle';
import { cannot, type Estimate } from '@backsight/statistics/estimate';
import { bornhuetterFerguson, type ExposedOrigin } from '@backsight/statistics/reserving/bornhuetterFerguson';
import { capeCod } from '@backsight/statistics/reserving/capeCod';
import { mackStandardError } from '@backsight/statistics/reserving/mack';
import { lognormalRange } from '@backsight/statistics/reserving/scatter';
import { errorByScatter, periodsToCome, together } from './errors.ts';
import { patternOf, shareAt, type Pattern } from './pattern.ts';

export const CHOICES = ['each', ...METHODS] as const;
/** One method for all periods, or the one that fits each. */
export type Choice = (typeof CHOICES)[number];

/** Amounts in the unit of the triangle, not rounded. */
export type OriginOutlook = {
  method: Method;
  why: string;
  /** Share of the end usually known at this age. */
  shareKnown: number;
  ultimate: number;
  unreported: number;
  /** Null where the method has none; that of the end of the last whole period for the chain ladder. */
  standardError: number | null;
  /** Amounts at the ends of the periods to come, after the latest cell. */
  projected: number[];
};

export type Outlook = {
  origins: OriginOutlook[];
  pattern: Pattern;
  /** Amount per 100 jobs that the exposure methods expect; null where none is used. */
  expectedPer100: number | null;
  totals: {
    latest: number;
    ultimate: number;
    unreported: number;
    standardError: number | null;
    range: { lower: number; upper: number } | null;
  };
  /** Where the standard error of the total comes from. */
  error: 'mack' | 'scatter';
  /** Why there is none. */
  noError: string | null;
  /** Standard errors of the factors after Mack, in their order; or why there are none. */
  factorErrors: Estimate<{ each: number[] }>;
};

type Asked = { choice: Choice; /** Expected amount per 100 jobs, said by somebody. */ expected?: number | undefined };
type Standing = { origin: Origin; share: number; method: Method; why: string };

/**
 * Shares for which lognormal limits are asked so that they hold about 3 of 4 cases. Scatter is known from few cells, the cost of a
 * callback from fewer: in 200 trials each of four invented firms (90 and 300 jobs a month, 30 months) these held 70 to 86 of 100.
 */
const RANGE = { counts: 0.8, amounts: 0.9 };
const JOBS = 100;
/** In place of a share of 0, by which cannot be divided. */
const NEXT_TO_NOTHING = 1e-9;

/** Ultimate, unreported part and its error for every period, or a sentence why not. */
export function estimate(of: Development, { choice, expected }: Asked): Estimate<Outlook> {
  const pattern = patternOf(of);
  if (!pattern.ok) return pattern;
  const standings = of.origins.map((origin): Standing => {
    const share = shareAt(pattern.shares, origin.age);
    const { callbacks, latest } = origin;
    const running = origin.whole === 0;
    return {
      origin,
      share,
      ...(choice === 'each'
        ? choose({ shareKnown: share, callbacks, latest, running }, of.grain, expected !== undefined)
        : { method: choice, why: 'chosen for all periods' }),
    };
  });
  const unready = standings.find(({ method, share, origin }) => method === 'chain_ladder' && share === 0 && origin.latest !== 0);
  if (unready)
    return cannot('zero_denominator', `nothing was ever known at the age of ${unready.origin.name}, so that nothing can be multiplied`);
  const prior = standings.every(({ method }) => method === 'chain_ladder') ? null : priorOf(standings, expected);
  if (prior && !prior.ok) return prior;
  return { ok: true, ...outlookOf(of, pattern, standings, { per100: prior?.per100 ?? null, said: expected !== undefined }) };
}

const exposed = ({ origin: { name, latest, jobs }, share }: Standing): ExposedOrigin => ({
  origin: name,
  latest,
  exposure: jobs / JOBS,
  factorToUltimate: 1 / Math.max(share, NEXT_TO_NOTHING),
});

/** Amount per 100 jobs: said by somebody; of all periods as far as they have ripened (Cape Cod); or of those of which most is known. */
function priorOf(standings: readonly Standing[], expected?: number): Estimate<{ per100: number }> {
  if (expected !== undefined) return { ok: true, per100: expected };
  const ofAll = standings.every(({ method }) => method !== 'bornhuetter_ferguson');
  const from = ofAll ? standings : standings.filter(({ share, origin }) => share >= 0.5 && origin.whole > 0);
  if (from.length === 0)
    return cannot('too_few', 'no period has ripened far enough to say what is to be expected of the others; say yourself what you expect');
  const found = capeCod(from.map(exposed));
  return found.ok ? { ok: true, per100: found.costPerExposure } : found;
}

type Prior = { per100: number | null; said: boolean };

function outlookOf(of: Development, pattern: Pattern, standings: readonly Standing[], { per100, said }: Prior): Outlook {
  const columns = of.origins[0]!.cells.length;
  const mack = mackStandardError(pattern.triangle);
  const before = per100 === null ? null : bornhuetterFerguson(standings.map(exposed), per100);
  const grows = standings.map((standing, index) => grown(standing, before?.origins[index]!.expected ?? 0));
  const toCome = standings.map(({ origin, share }, index) =>
    periodsToCome({ origin, share, at: grows[index]! }, pattern.shares, of.origins),
  );
  const scatter = errorByScatter(of, pattern, said);
  const origins = standings.map(({ origin, share, method, why }, index): OriginOutlook => {
    const at = grows[index]!;
    const ofMack = mack.ok ? mack.origins.find((each) => each.origin === origin.name)?.standardError : null;
    return {
      method,
      why,
      shareKnown: share,
      ultimate: at(1),
      unreported: at(1) - origin.latest,
      standardError: method === 'chain_ladder' ? (ofMack ?? null) : scatter.ok ? scatter.of(toCome[index]!) : null,
      projected: Array.from({ length: columns - origin.cells.length }, (_, next) =>
        at(pattern.shares[origin.cells.length + 1 + next] ?? 1),
      ),
    };
  });
  const [latest, unreported] = [sum(standings, ({ origin }) => origin.latest), sum(origins, (each) => each.unreported)];
  const byLadder = origins.every(({ method }) => method === 'chain_ladder');
  const error: Estimate<{ amount: number }> = byLadder
    ? mack.ok
      ? { ok: true, amount: mack.total.standardError }
      : mack
    : scatter.ok
      ? { ok: true, amount: scatter.of(together(toCome)) }
      : scatter;
  return {
    origins,
    pattern,
    expectedPer100: per100,
    totals: {
      latest,
      ultimate: latest + unreported,
      unreported,
      standardError: error.ok ? error.amount : null,
      range:
        error.ok && unreported > 0 ? lognormalRange(unreported, error.amount, RANGE[of.of === 'callbacks' ? 'counts' : 'amounts']) : null,
    },
    error: byLadder ? 'mack' : 'scatter',
    factorErrors: mack.ok ? { ok: true, each: mack.factors.map((factor) => factor.standardError) } : mack,
    noError: error.ok ? null : error.sentence,
  };
}

/** Amount of an origin when a share of its end is known: multiplied from what is known, or added to it from what was expected. */
const grown =
  ({ origin: { latest }, share, method }: Standing, expected: number) =>
  (known: number): number =>
    method !== 'chain_ladder' ? latest + expected * (known - share) : latest === 0 ? 0 : (latest * known) / share;

const sum = <T>(rows: readonly T[], of: (row: T) => number): number => rows.reduce((total, row) => total + of(row), 0);
