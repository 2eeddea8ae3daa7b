// A two-sided confidence interval, and the checks that every estimate makes on its arguments.

/** Limits in the unit of the estimate. */
export type ConfidenceInterval = { lower: number; upper: number };

/** Refuses anything but a whole number >= 0. @throws RangeError */
export function requireCount(name: string, value: number): void {
  if (!Number.isSafeInteger(value) || value < 0) throw new RangeError(`${name} must be a whole number of at least 0, got ${value}`);
}

/** Refuses anything but a finite number > 0. @throws RangeError */
export function requirePositive(name: string, value: number): void {
  if (!Number.isFinite(value) || value <= 0) throw new RangeError(`${name} must be a number above 0, got ${value}`);
}

/** Refuses anything but a probability strictly between 0 and 1. @throws RangeError */
export function requireProbability(name: string, value: number): void {
  if (!(value > 0 && value < 1)) throw new RangeError(`${name} must lie between 0 and 1, got ${value}`);
}
