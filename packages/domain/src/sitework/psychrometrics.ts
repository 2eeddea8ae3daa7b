// Air and wood: dew point, and the moisture that wood comes to rest at. Pure formulas with their sources; temperatures in degrees Fahrenheit.

/** Alduchov & Eskridge, "Improved Magnus form approximation of saturation vapor pressure", J. Appl. Meteorol. 35 (1996) 601-609: over water. */
const MAGNUS = { b: 17.625, c: 243.04 };

const celsius = (f: number): number => ((f - 32) * 5) / 9;
const fahrenheit = (c: number): number => (c * 9) / 5 + 32;

/** Dew point in F of air at `airF` with relative humidity `rh` in percent (over 0 to 100). Over water: below freezing frost forms a little earlier. */
export function dewPointF(airF: number, rh: number): number {
  if (!(rh > 0 && rh <= 100)) throw new RangeError('relative humidity is over 0 to 100 percent');
  const t = celsius(airF);
  const gamma = Math.log(rh / 100) + (MAGNUS.b * t) / (MAGNUS.c + t);
  return fahrenheit((MAGNUS.c * gamma) / (MAGNUS.b - gamma));
}

/**
 * Moisture in percent of dry weight at which wood comes to rest in air of `airF` and `rh` percent (0 to 100). USDA Forest Products Laboratory,
 * Wood Handbook (FPL-GTR-282, 2021), chapter 4, equation 4-5 with the coefficients for Fahrenheit; the coefficients from memory, checked against Table 4-2.
 */
export function woodAtRest(airF: number, rh: number): number {
  if (!(rh >= 0 && rh <= 100)) throw new RangeError('relative humidity is 0 to 100 percent');
  const [t, h] = [airF, rh / 100];
  const w = 330 + 0.452 * t + 0.00415 * t * t;
  const k = 0.791 + 0.000463 * t - 0.000000844 * t * t;
  const k1 = 6.34 + 0.000775 * t - 0.0000935 * t * t;
  const k2 = 1.09 + 0.0284 * t - 0.0000904 * t * t;
  const kh = k * h;
  return (1800 / w) * (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh));
}
