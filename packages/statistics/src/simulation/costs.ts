// What one callback costs, drawn from the firm's own costs: as they were, or by a curve fitted to those that cost anything.
import { drawBeta, drawNormal, type Random } from './random.ts';

/** `resampled` draws only what was seen; `fitted` may draw more than the dearest so far. Amounts in cents, at least 0. */
export type CostModel = { kind: 'resampled' | 'fitted'; cents: readonly number[] };

/** Draws of one run: `begin` settles what is not known for sure about costs, `draw` is the cost of one callback in cents. */
export type CostDraws = { begin: () => void; draw: () => number };

/**
 * `resampled`: each run takes a bootstrap sample of the costs (B. Efron, "Bootstrap methods: another look at the jackknife", Annals of
 * Statistics 7 (1979) 1-26) and draws from that. `fitted`: a share costs something, with Beta(k + 1/2, n - k + 1/2); that cost is
 * lognormal with the mean of logarithms drawn anew for each run (normal, variance s^2 / k) and their standard deviation s as it was.
 * @throws RangeError when there is no cost, or `fitted` has fewer than two above 0
 */
export function costDraws(random: Random, { kind, cents }: CostModel): CostDraws {
  if (cents.length === 0) throw new RangeError('at least one cost is needed');
  return kind === 'resampled' ? resampled(random, cents) : fitted(random, cents);
}

function resampled(random: Random, cents: readonly number[]): CostDraws {
  const n = cents.length;
  // The place of a bootstrap sample is drawn when it is first needed: most runs need few.
  const taken = new Int32Array(n);
  const inRun = new Int32Array(n);
  let run = 0;
  return {
    begin: () => {
      run += 1;
    },
    draw: () => {
      const at = Math.floor(random() * n);
      if (inRun[at] !== run) {
        inRun[at] = run;
        taken[at] = Math.floor(random() * n);
      }
      return cents[taken[at]!]!;
    },
  };
}

/** Mean and standard deviation (n - 1) of the logarithms of the costs above 0. */
export function logMoments(cents: readonly number[]): { costing: number; mean: number; deviation: number } {
  const logs = cents.filter((one) => one > 0).map(Math.log);
  const mean = logs.reduce((sum, one) => sum + one, 0) / logs.length;
  const squares = logs.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return { costing: logs.length, mean, deviation: Math.sqrt(squares / (logs.length - 1)) };
}

function fitted(random: Random, cents: readonly number[]): CostDraws {
  const { costing, mean, deviation } = logMoments(cents);
  if (costing < 2) throw new RangeError('at least two costs above 0 are needed for a curve');
  let [share, center] = [0, 0];
  return {
    begin: () => {
      share = drawBeta(random, costing + 0.5, cents.length - costing + 0.5);
      center = mean + (deviation / Math.sqrt(costing)) * drawNormal(random);
    },
    draw: () => (random() < share ? Math.round(Math.exp(center + deviation * drawNormal(random))) : 0),
  };
}
