// Miles driven for the firm: what may be entered, and what they are repaid with.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

/** Either tenths of a mile, or both readings of the odometer in whole miles. */
export type Driven = { tenths: number | null; odometerStart: number | null; odometerEnd: number | null };

const MOST_TENTHS = 20_000;

/** Tenths of a mile that were driven; the odometer, where it was read, says more than the typed miles. */
export function tenthsDriven({ tenths, odometerStart, odometerEnd }: Driven): Outcome<number> {
  if ((odometerStart === null) !== (odometerEnd === null))
    return refuse('mileage-missing', {}, odometerStart === null ? 'odometerStart' : 'odometerEnd');
  if (odometerStart !== null && odometerEnd !== null) {
    if (odometerEnd < odometerStart) return refuse('mileage-odometer', {}, 'odometerEnd');
    return withinReason((odometerEnd - odometerStart) * 10, 'odometerEnd');
  }
  return tenths === null ? refuse('mileage-missing', {}, 'tenths') : withinReason(tenths, 'tenths');
}

const withinReason = (tenths: number, field: string): Outcome<number> =>
  tenths > MOST_TENTHS ? refuse('mileage-too-far', {}, field) : accept(tenths);

/** Whole cents for tenths of a mile at a rate in tenths of a cent per mile, half a cent rounded up. */
export const repaidCents = (tenths: number, tenthCents: number): number => Math.floor((tenths * tenthCents + 50) / 100);

const LONGEST_DAYS = 400;

/** A period of at most 400 days. */
export function periodFits(from: string, to: string): Outcome<null> {
  if (to < from) return refuse('period-backwards', {}, 'to');
  const days = (Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000;
  return days > LONGEST_DAYS ? refuse('period-too-long', {}, 'to') : accept(null);
}
