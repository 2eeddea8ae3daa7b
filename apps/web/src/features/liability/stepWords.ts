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

const percentOf = (share: number): string => `${(share * 100).toLocaleString('en-US', { maximumFractionDigits: share < 0.1 ? 1 : 0 })} %`;

/** '4 of 210: 1.9 % (0.7 to 4.8 %)', with Wilson's 95 % interval. */
export function shareText(share: StepFigures['skipped']): string {
  if (!share) return 'no sealed record';
  return `${share.count} of ${share.total.toLocaleString('en-US')}: ${percentOf(share.count / share.total)} (${percentOf(share.lower)} to ${percentOf(share.upper)})`;
}

/** The same without the counts, for a narrow column. */
export const shareShort = (share: StepFigures['skipped']): string =>
  share ? `${percentOf(share.count / share.total)} (${percentOf(share.lower)} to ${percentOf(share.upper)})` : 'no sealed record';

/** Failures per time as the axis shows them: in 1,000 times. */
export const inThousand = (value: number): string => thousand(value);

const MONTH = new Intl.DateTimeFormat('en-US', { month: 'short', year: 'numeric', timeZone: 'UTC' });
/** 'May 2026' of YYYY-MM. */
export const monthText = (month: string): string => MONTH.format(new Date(`${month}-15T12:00:00Z`));

/** 'Water heater' of the key of a system. */
export const systemText = (key: string): string => key.charAt(0).toUpperCase() + key.slice(1).replaceAll('_', ' ');
