// Money in whole cents: exact shares, exact percentages, and dollars as people write them.

/** Named as in java.math.RoundingMode (Oracle, API documentation): 'up' is away from zero, 'down' toward zero. */
export type Rounding = 'up' | 'down' | 'ceiling' | 'floor' | 'halfUp' | 'halfDown' | 'halfEven';

type Decimal = { digits: bigint; places: number };

const decimal = (value: number): Decimal => {
  const parts = /^(-?\d+)(?:\.(\d+))?$/.exec(String(value));
  if (!parts) throw new RangeError(`${value} cannot be calculated with exactly.`);
  const fraction = parts[2] ?? '';
  return { digits: BigInt(parts[1] + fraction), places: fraction.length };
};

/** Whether the dropped part moves the result one away from zero. `twice` is the dropped part doubled, as against `divisor`. */
const growsBy = (rounding: Rounding, negative: boolean, whole: bigint, twice: bigint, divisor: bigint): boolean => {
  switch (rounding) {
    case 'up':
      return true;
    case 'down':
      return false;
    case 'ceiling':
      return !negative;
    case 'floor':
      return negative;
    case 'halfUp':
      return twice >= divisor;
    case 'halfDown':
      return twice > divisor;
    case 'halfEven':
      return twice > divisor || (twice === divisor && whole % 2n === 1n);
  }
};

const divide = (dividend: bigint, divisor: bigint, rounding: Rounding): number => {
  const negative = dividend < 0n;
  const size = negative ? -dividend : dividend;
  const whole = size / divisor;
  const rest = size % divisor;
  const grown = rest > 0n && growsBy(rounding, negative, whole, rest * 2n, divisor) ? whole + 1n : whole;
  return Number(negative ? -grown : grown);
};

/**
 * Quantity times price in cents, rounded once to whole cents; both may have decimals and are taken as written,
 * so 37.4 miles at 72.5 cents are exactly 2711.5 cents before rounding. Throws RangeError for what is not a plain number.
 */
export const priceOf = (quantity: number, centsEach: number, rounding: Rounding): number => {
  const a = decimal(quantity);
  const b = decimal(centsEach);
  return divide(a.digits * b.digits, 10n ** BigInt(a.places + b.places), rounding);
};

/** A percentage of an amount in cents, rounded to whole cents: percentOf(125050, 7.5, 'halfUp') is 9379. */
export const percentOf = (cents: number, percent: number, rounding: Rounding): number => {
  const a = decimal(cents);
  const b = decimal(percent);
  return divide(a.digits * b.digits, 100n * 10n ** BigInt(a.places + b.places), rounding);
};

const wholeOrThrow = (value: number, what: string): bigint => {
  if (!Number.isSafeInteger(value)) throw new RangeError(`${what} must be a whole number, not ${value}.`);
  return BigInt(value);
};

/**
 * Shares an amount by weights without losing a cent (largest remainder, also called Hamilton's method; Fowler,
 * "Patterns of Enterprise Application Architecture", 2002, Money). Ties go to the earlier share; a negative amount
 * is shared like the positive one. Weights are whole numbers of at least 0, not all 0; otherwise RangeError.
 */
export const allocate = (totalCents: number, weights: readonly number[]): number[] => {
  const total = wholeOrThrow(Math.abs(totalCents), 'The amount');
  const parts = weights.map((weight) => wholeOrThrow(weight, 'A weight'));
  const sum = parts.reduce((a, b) => a + b, 0n);
  if (sum <= 0n || parts.some((part) => part < 0n)) throw new RangeError('Weights must be at least 0 and not all 0.');
  const shares = parts.map((part) => (total * part) / sum);
  const left = Number(total - shares.reduce((a, b) => a + b, 0n));
  const rests = parts.map((part) => (total * part) % sum);
  const byRest = rests.map((_, at) => at).sort((a, b) => Number(rests[b]! - rests[a]!) || a - b);
  const lucky = new Set(byRest.slice(0, left));
  return shares.map((share, at) => (Number(share) + (lucky.has(at) ? 1 : 0)) * (totalCents < 0 ? -1 : 1) || 0);
};

/** '$1,234.50'; a negative amount is '-$5.00'. Throws RangeError unless the cents are whole. */
export const formatUsd = (cents: number): string => {
  const size = wholeOrThrow(Math.abs(cents), 'An amount in cents');
  const dollars = (size / 100n).toLocaleString('en-US');
  return `${cents < 0 ? '-' : ''}$${dollars}.${String(size % 100n).padStart(2, '0')}`;
};

/** For the middle of a sentence: '$50' rather than '$50.00', but '$49.50' stays. */
export const shortUsd = (cents: number): string => formatUsd(cents).replace(/\.00$/, '');

/**
 * Cents from what a person typed: '1234.5', '$1,234.50', '-$5.00'. Answers null for anything else: commas in odd
 * places, more than two decimals, words, nothing at all, or an amount too big to be exact.
 */
export const parseUsd = (text: string): number | null => {
  const parts = /^(-?)\$?(\d+|\d{1,3}(?:,\d{3})+)(?:\.(\d{1,2}))?$/.exec(text.trim());
  if (!parts) return null;
  const [, sign, dollars = '', fraction = ''] = parts;
  const cents = Number(dollars.replaceAll(',', '') + fraction.padEnd(2, '0'));
  if (!Number.isSafeInteger(cents)) return null;
  return sign && cents > 0 ? -cents : cents;
};
