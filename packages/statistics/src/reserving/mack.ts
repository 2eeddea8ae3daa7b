// How far the chain ladder may be off: Mack's standard error, by origin period and in total.
import { cannot, type Estimate, type NotEstimable } from '../estimate.ts';
import { chainLadder, type Caution, type DevelopmentFactor, type OriginEstimate } from './chainLadder.ts';
import { readTriangle, type Step, type Triangle } from './triangle.ts';

export type MackFactor = DevelopmentFactor & {
  /** Root of the variance of an amount's growth per unit of amount. */
  sigma: number;
  /** Of the factor itself. */
  standardError: number;
};

/** Amounts in the unit of the triangle. */
export type MackError = {
  /** Chance in what is still to come. */
  process: number;
  /** Not knowing the factors better. */
  parameter: number;
  /** Both together: sqrt(process^2 + parameter^2). */
  standardError: number;
  /** Standard error over the unreported amount; null where that is not above 0. */
  coefficientOfVariation: number | null;
};

export type Mack = {
  factors: MackFactor[];
  origins: (OriginEstimate & MackError)[];
  /** With the covariance that origins have because they share their factors. */
  total: { latest: number; ultimate: number; unreported: number } & MackError;
  cautions: Caution[];
};

/**
 * Standard error of the unreported amount by origin period and in total, for volume-weighted factors of all origins, no tail.
 * Where one origin alone shows the last step, its sigma^2 is min(s1^4 / s2^2, s1^2, s2^2), s1 and s2 being those of the two steps
 * before (Mack's rule; another rule gives another total).
 * T. Mack, "Distribution-free calculation of the standard error of chain ladder reserve estimates", ASTIN Bulletin 23 (1993)
 * 213-225; step by step as in Mack, "The standard error of chain ladder reserve estimates: recursive calculation and inclusion
 * of a tail factor", ASTIN Bulletin 29 (1999) 361-366.
 * @throws RangeError as chainLadder does
 */
export function mackStandardError(triangle: Triangle): Estimate<Mack> {
  const ladder = chainLadder(triangle);
  const read = readTriangle(triangle);
  if (!ladder.ok) return ladder;
  if (!read.ok) return read;
  const variances = sigmaSquares(read.steps, ladder.factors);
  if (!Array.isArray(variances)) return variances;
  const factors = ladder.factors.map((factor, k): MackFactor => {
    const weight = read.steps[k]!.pairs.reduce((sum, { before }) => sum + before, 0);
    return { ...factor, sigma: Math.sqrt(variances[k]!), standardError: Math.sqrt(variances[k]! / weight) };
  });
  const walks = ladder.origins.map((origin) => walk([origin], factors));
  const process = Math.hypot(...walks.map((walked) => walked.process));
  const { parameter } = walk(ladder.origins, factors);
  return {
    ok: true,
    factors,
    origins: ladder.origins.map((origin, at) => ({ ...origin, ...errorOf(walks[at]!, origin.unreported) })),
    total: { ...ladder.totals, ...errorOf({ process, parameter }, ladder.totals.unreported) },
    cautions: ladder.cautions,
  };
}

function sigmaSquares(steps: readonly Step[], factors: readonly DevelopmentFactor[]): number[] | NotEstimable {
  const found: number[] = [];
  for (const [k, { from, pairs }] of steps.entries()) {
    const grown = pairs.find(({ before, after }) => before === 0 && after > 0);
    if (grown)
      return cannot(
        'grows_from_nothing',
        `${grown.origin} had nothing at period ${from} and something after, which no factor explains; longer periods may help`,
      );
    // An origin that stays at nothing says nothing of how amounts scatter.
    const used = pairs.filter(({ before }) => before > 0);
    const squares = used.reduce((sum, { before, after }) => sum + before * (after / before - factors[k]!.factor) ** 2, 0);
    if (used.length > 1) found.push(squares / (used.length - 1));
    else if (k < steps.length - 1) return cannot('one_row_for_factor', `one origin alone shows how amounts grow after period ${from}`);
    else if (k < 2)
      return cannot(
        'too_few_periods',
        'the last step is shown by one origin alone, and takes its scatter from two steps before it that are not there',
      );
    else found.push(lastSigmaSquare(found[k - 1]!, found[k - 2]!));
  }
  return found;
}

const lastSigmaSquare = (before: number, twoBefore: number): number =>
  twoBefore === 0 ? 0 : Math.min(before ** 2 / twoBefore, before, twoBefore);

/**
 * Carries the amounts of some origins to their ultimates, adding up both errors on the way. For several origins together the
 * parameter error is that of their sum, because they share each factor's error; the process errors are independent.
 */
function walk(origins: readonly OriginEstimate[], factors: readonly MackFactor[]): { process: number; parameter: number } {
  let [amount, process, parameter] = [0, 0, 0];
  for (const { from, factor, sigma, standardError } of factors) {
    amount += origins.filter(({ age }) => age === from).reduce((sum, { latest }) => sum + latest, 0);
    process = factor ** 2 * process + amount * sigma ** 2;
    parameter = factor ** 2 * parameter + (amount * standardError) ** 2;
    amount *= factor;
  }
  return { process: Math.sqrt(process), parameter: Math.sqrt(parameter) };
}

function errorOf({ process, parameter }: { process: number; parameter: number }, unreported: number): MackError {
  const standardError = Math.hypot(process, parameter);
  return { process, parameter, standardError, coefficientOfVariation: unreported > 0 ? standardError / unreported : null };
}
