// Rates and shares of steps as people read them.
import type { StepFigures } from '@backsight/contract/liability/steps';

/** Above this the interval spans most of what is possible and says nothing. */
const TELLING = 0.5;

const thousand = (value: number): string => (value * 1000).toLocaleString('en-US', { maximumFractionDigits: 1 });

/** '3 in 1,000 (0.6 to 8.8)': failures per thousand times the step applied, with the exact 95 % interval. */
export function perThousand(rate: StepFigures['rate']): string {
  if (!rate) return 'never applied';
  if (rate.upper > TELLING) return 'too few times to tell';
  return `${thousand(rate.rate)} in 1,000 (${thousand(rate.lower)} to ${thousand(rate.upper)})`;
}

/** The same for a narrow column: '3 (0.6 to 8.8)'. */
export function thousandShort(rate: StepFigures['rate']): string {
  if (!rate) return 'never applied';
  return rate.upper > TELLING ? 'too few' : `${thousand(rate.rate)} (${thousand(rate.lower)} to ${thousand(rate.upper)})`;
}

/** Small and large shares keep a digit that tells. */
const percentOf = (share: number): string =>
  share > 0 && share < 0.0005
    ? 'under 0.1'
    : (share * 100).toLocaleString('en-US', { maximumFractionDigits: share < 0.1 || share > 0.9 ? 1 : 0 });

/** '4 of 210: 1.9 % (0.7 to 4.8 %)', with Wilson's 95 % interval. */
export function shareText(share: StepFigures['skipped']): string {
  if (!share) return 'cannot be estimated because no record is sealed yet';
  const { count, total, lower, upper } = share;
  return `${count.toLocaleString('en-US')} of ${total.toLocaleString('en-US')}: ${percentOf(count / total)} % (${percentOf(lower)} to ${percentOf(upper)} %)`;
}

/** The share alone, where the page of the step says the rest. */
export const shareOnly = (share: StepFigures['skipped']): string =>
  !share ? 'no record' : share.count === 0 ? 'none' : `${percentOf(share.count / share.total)} %`;

/** With its interval and without the counts, for a narrow column. */
export function shareShort(share: StepFigures['skipped']): string {
  if (!share) return 'no record';
  if (share.count === 0) return `none (to ${percentOf(share.upper)} %)`;
  return `${percentOf(share.count / share.total)} % (${percentOf(share.lower)} to ${percentOf(share.upper)})`;
}

/** Failures per time as the axis shows them: in 1,000 times. */
export const inThousand = (value: number): string => thousand(value);

const MONTH = new Intl.DateTimeFormat('en-US', { month: 'short', year: 'numeric', timeZone: 'UTC' });
/** 'May 2026' of YYYY-MM. */
export const monthText = (month: string): string => MONTH.format(new Date(`${month}-15T12:00:00Z`));

/** 'Water heater' of the key of a system. */
export const systemText = (key: string): string => key.charAt(0).toUpperCase() + key.slice(1).replaceAll('_', ' ');
