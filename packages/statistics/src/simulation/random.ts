// Chance that can be had again: a seeded generator and the draws that outlooks need.
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { logPoissonPmf } from '../distributions.ts';

/** Each number lies strictly between 0 and 1 and is one of 2^32 evenly spread ones. */
export type Random = () => number;

/** The same seed (a whole number of up to 32 bits) gives the same numbers for ever. xoroshiro128+, D. Blackman & S. Vigna (2018). */
export function seeded(seed: number): Random {
  const generator = xoroshiro128plus(seed);
  return () => ((generator.next() >>> 0) + 0.5) / 4_294_967_296;
}

/** Standard normal. G. Marsaglia & T. A. Bray, "A convenient method for generating normal variables", SIAM Review 6 (1964) 260-264. */
export function drawNormal(random: Random): number {
  for (;;) {
    const [u, v] = [2 * random() - 1, 2 * random() - 1];
    const s = u * u + v * v;
    if (s < 1 && s > 0) return u * Math.sqrt((-2 * Math.log(s)) / s);
  }
}

/**
 * Gamma with a shape above 0 and rate 1: mean and variance are the shape.
 * G. Marsaglia & W. W. Tsang, "A simple method for generating gamma variables", ACM Trans. Math. Software 26 (2000) 363-372.
 */
export function drawGamma(random: Random, shape: number): number {
  if (shape < 1) return drawGamma(random, shape + 1) * random() ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = drawNormal(random);
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(random()) < (x * x) / 2 + d * (1 - v + Math.log(v))) return d * v;
  }
}

/** Beta, as a share of two gamma draws. */
export function drawBeta(random: Random, alpha: number, beta: number): number {
  const x = drawGamma(random, alpha);
  return x / (x + drawGamma(random, beta));
}

/**
 * Poisson with a mean of at least 0: by multiplication below 10, by transformed rejection above (PTRS of W. Hörmann, "The transformed
 * rejection method for generating Poisson random variables", Insurance: Mathematics and Economics 12 (1993) 39-45). The sampler of
 * the library takes part of its chance from where no seed reaches.
 */
export function drawPoisson(random: Random, mean: number): number {
  if (mean < 10) {
    const least = Math.exp(-mean);
    let count = 0;
    for (let product = random(); product > least; product *= random()) count++;
    return count;
  }
  const b = 0.931 + 2.53 * Math.sqrt(mean);
  const a = -0.059 + 0.02483 * b;
  const inverse = 1.1239 + 1.1328 / (b - 3.4);
  const quick = 0.9277 - 3.6224 / (b - 2);
  for (;;) {
    const [u, v] = [random() - 0.5, random()];
    const s = 0.5 - Math.abs(u);
    const k = Math.floor(((2 * a) / s + b) * u + mean + 0.43);
    if (s >= 0.07 && v <= quick) return k;
    if (k < 0 || (s < 0.013 && v > s)) continue;
    if (Math.log((v * inverse) / (a / (s * s) + b)) <= logPoissonPmf(k, mean)) return k;
  }
}
