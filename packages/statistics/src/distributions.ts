// The probability distributions that the estimates need, under one name each.
import jstat from 'jstat';

const { jStat } = jstat;

/** P(Z <= z) of the standard normal distribution. */
export const normalCdf = (z: number): number => jStat.normal.cdf(z, 0, 1);

/** z such that P(Z <= z) = p. */
export const normalQuantile = (p: number): number => jStat.normal.inv(p, 0, 1);

/** P(X <= x) of the chi-square distribution. */
export const chiSquareCdf = (x: number, degrees: number): number => jStat.chisquare.cdf(x, degrees);

/** x such that P(X <= x) = p; relative error below 1e-10. */
export const chiSquareQuantile = (p: number, degrees: number): number => jStat.chisquare.inv(p, degrees);

/** P(X <= x) of the beta distribution; absolute error below 1e-7. */
export const betaCdf = (x: number, alpha: number, beta: number): number => jStat.beta.cdf(x, alpha, beta);

/** x such that P(X <= x) = p; relative error below 1e-8 for alpha + beta up to 1,000, 1e-7 beyond. */
export const betaQuantile = (p: number, alpha: number, beta: number): number => jStat.beta.inv(p, alpha, beta);

/** P(X <= x) of the F distribution; absolute error below 1e-7. */
export const fCdf = (x: number, numeratorDegrees: number, denominatorDegrees: number): number =>
  jStat.centralF.cdf(x, numeratorDegrees, denominatorDegrees);

/** x such that P(X <= x) = p; relative error below 1e-7. */
export const fQuantile = (p: number, numeratorDegrees: number, denominatorDegrees: number): number =>
  jStat.centralF.inv(p, numeratorDegrees, denominatorDegrees);

/** Log of the probability of k failures among n with probability p each; 0 <= k <= n, 0 <= p <= 1. */
export function logBinomialPmf(k: number, n: number, p: number): number {
  const logChoose = jStat.loggam(n + 1) - jStat.loggam(k + 1) - jStat.loggam(n - k + 1);
  return logChoose + power(k, Math.log(p)) + power(n - k, Math.log1p(-p));
}

/** Log of the probability of k events where `mean` are expected; mean >= 0. */
export const logPoissonPmf = (k: number, mean: number): number => power(k, Math.log(mean)) - mean - jStat.loggam(k + 1);

/** Log of the probability of k in the first cell of a table of two by two whose margins are given; k within what they allow. */
export function logHypergeometricPmf(k: number, { row, column, all }: { row: number; column: number; all: number }): number {
  const logChoose = (n: number, m: number): number => jStat.loggam(n + 1) - jStat.loggam(m + 1) - jStat.loggam(n - m + 1);
  return logChoose(row, k) + logChoose(all - row, column - k) - logChoose(all, column);
}

/** P(X <= k) of the binomial distribution, summed term by term: right to about 1e-12 even in a far tail, which 1 - cdf is not. */
export function binomialLowerTail(k: number, n: number, p: number): number {
  if (k < 0) return 0;
  if (k >= n || p === 0) return 1;
  const odds = p / (1 - p);
  let term = Math.exp(logBinomialPmf(k, n, p));
  let sum = term;
  const mean = n * p;
  for (let i = k; i > 0 && !(i < mean && term < sum * 1e-17); i--) {
    term *= i / ((n - i + 1) * odds);
    sum += term;
  }
  return Math.min(1, sum);
}

/** P(X >= k) of the binomial distribution, summed term by term. */
export const binomialUpperTail = (k: number, n: number, p: number): number => binomialLowerTail(n - k, n, 1 - p);

// log(x^0) is 0 also where log(x) is minus infinity.
const power = (exponent: number, logarithm: number): number => (exponent === 0 ? 0 : exponent * logarithm);
