// Cape Cod: Bornhuetter-Ferguson with the expected cost taken from the origins themselves.
import { cannot, type Estimate } from '../estimate.ts';
import { bornhuetterFerguson, checkExposed, type BornhuetterFerguson, type ExposedOrigin } from './bornhuetterFerguson.ts';

export type CapeCod = BornhuetterFerguson & {
  /** Amount per unit of exposure: all that was reported over all exposure as far as it has ripened. Not rounded. */
  costPerExposure: number;
  /** Exposure as far as it has ripened, by origin, in the order given: exposure / factorToUltimate. */
  usedUp: { origin: string; exposure: number; costPerExposure: number | null }[];
};

/**
 * Cost per exposure = sum of latest / sum of exposure / factorToUltimate; then as Bornhuetter-Ferguson. No trend, no decay.
 * J. N. Stanard, "A simulation test of prediction errors of loss reserve estimation techniques", Proc. Casualty Actuarial Society
 * 72 (1985) 124-148; J. Friedland, "Estimating Unpaid Claims Using Basic Techniques" (2010), chapter 10.
 * @throws RangeError as bornhuetterFerguson does
 */
export function capeCod(origins: readonly ExposedOrigin[]): Estimate<CapeCod> {
  for (const origin of origins) checkExposed(origin);
  const usedUp = origins.map(({ origin, latest, exposure, factorToUltimate }) => {
    const ripe = exposure / factorToUltimate;
    return { origin, exposure: ripe, costPerExposure: ripe === 0 ? null : latest / ripe };
  });
  const ripe = usedUp.reduce((sum, { exposure }) => sum + exposure, 0);
  if (ripe === 0) return cannot('no_exposure', 'no origin period has any work behind it');
  const reported = origins.reduce((sum, { latest }) => sum + latest, 0);
  if (reported === 0) return cannot('nothing_counted', 'nothing was ever reported, so that the cost of a job is unknown');
  if (reported < 0) return cannot('below_zero', 'more came back than was ever paid or set aside');
  const costPerExposure = reported / ripe;
  return { ok: true, costPerExposure, usedUp, ...bornhuetterFerguson(origins, costPerExposure) };
}
