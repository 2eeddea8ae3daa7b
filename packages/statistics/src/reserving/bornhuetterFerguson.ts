// Bornhuetter-Ferguson: what is still to come is what was expected beforehand, however much or little was reported so far.
import { requirePositive } from '../interval.ts';

/** An origin period. */
export type ExposedOrigin = {
  origin: string;
  /** Amount known so far (cents). */
  latest: number;
  /** Work that it comes from, in any unit that all origins keep to, such as hundreds of jobs; at least 0. */
  exposure: number;
  /** Development factor from now to the end, above 0: as `factorToUltimate` of the chain ladder. */
  factorToUltimate: number;
};

/** Amounts in the unit of `latest`, not rounded. */
export type ExposedEstimate = {
  origin: string;
  latest: number;
  /** Cost expected before anything was reported: exposure x cost per unit of exposure. */
  expected: number;
  /** Share of the ultimate amount still to come at this age: 1 - 1 / factorToUltimate; below 0 where amounts fall. */
  shareToCome: number;
  unreported: number;
  ultimate: number;
};

export type ExposedTotals = { latest: number; expected: number; unreported: number; ultimate: number };

export type BornhuetterFerguson = { origins: ExposedEstimate[]; totals: ExposedTotals };

/**
 * Ultimate = latest + expected x (1 - 1 / factorToUltimate), by origin, with `costPerExposure` (amount per unit of exposure) known beforehand.
 * R. L. Bornhuetter & R. E. Ferguson, "The actuary and IBNR", Proc. Casualty Actuarial Society 59 (1972) 181-195;
 * J. Friedland, "Estimating Unpaid Claims Using Basic Techniques" (2010), chapter 9. It divides by no amount, so it gives figures where
 * the chain ladder cannot.
 * @throws RangeError on an amount that is not finite, an exposure or cost below 0, or a factor not above 0
 */
export function bornhuetterFerguson(origins: readonly ExposedOrigin[], costPerExposure: number): BornhuetterFerguson {
  for (const origin of origins) checkExposed(origin);
  if (!Number.isFinite(costPerExposure) || costPerExposure < 0)
    throw new RangeError(`costPerExposure must be at least 0, got ${costPerExposure}`);
  const found = origins.map(({ origin, latest, exposure, factorToUltimate }): ExposedEstimate => {
    const expected = exposure * costPerExposure;
    const shareToCome = 1 - 1 / factorToUltimate;
    const unreported = expected * shareToCome;
    return { origin, latest, expected, shareToCome, unreported, ultimate: latest + unreported };
  });
  const total = (key: keyof ExposedTotals): number => found.reduce((sum, each) => sum + each[key], 0);
  return {
    origins: found,
    totals: { latest: total('latest'), expected: total('expected'), unreported: total('unreported'), ultimate: total('ultimate') },
  };
}

/** @throws RangeError on an amount that is not finite, an exposure below 0 or a factor not above 0 */
export function checkExposed({ origin, latest, exposure, factorToUltimate }: ExposedOrigin): void {
  if (!Number.isFinite(latest)) throw new RangeError(`latest of ${origin} must be a number, got ${latest}`);
  if (!Number.isFinite(exposure) || exposure < 0) throw new RangeError(`exposure of ${origin} must be at least 0, got ${exposure}`);
  requirePositive(`factorToUltimate of ${origin}`, factorToUltimate);
}
