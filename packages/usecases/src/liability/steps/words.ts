// Sentences about a step, and shares with where they likely lie.
import { formatUsd } from '@backsight/domain/shared/money';
import { wilsonInterval } from '@backsight/statistics/proportions';
import { garwoodInterval } from '@backsight/statistics/rates';
import type { Counted } from './compare.ts';

/** Failures per time that the step applied, with the exact 95 % interval; null where it never applied. */
export const rateOf = ({ failures, times }: Counted) =>
  times === 0 ? null : { rate: failures / times, ...garwoodInterval({ count: failures, exposure: times }) };

/** A share with Wilson's 95 % interval; null of nothing. */
export const shareOf = (count: number, total: number) => (total === 0 ? null : { count, total, ...wilsonInterval({ count, total }) });

const say = (n: number): string => n.toLocaleString('en-US');
const perThousand = (rate: number): string => (rate * 1000).toLocaleString('en-US', { maximumFractionDigits: 1 });
export const counted = (n: number, one: string, more = `${one}s`): string => `${say(n)} ${n === 1 ? one : more}`;

/** Above this share of times the limits of a rate span most of what is possible. */
const TELLING = 0.5;

export type Portrait = Counted & {
  jobs: number;
  nearMisses: number;
  incurredCents: number;
  skipped: ReturnType<typeof shareOf>;
  /** Failures of all steps together. */
  allFailures: number;
  waiting: number;
};

/** What a step is like, in one sentence. */
export function portrait(step: Portrait): string {
  const { times, jobs, failures, nearMisses } = step;
  if (times === 0 && failures === 0)
    return nearMisses === 0
      ? 'This step has not applied on any inspection yet, so nothing can be said of it.'
      : `This step has not applied on any inspection yet; ${counted(nearMisses, 'near-miss', 'near-misses')} ${nearMisses === 1 ? 'was' : 'were'} traced to it.`;
  const applied = `It applied ${counted(times, 'time')} on ${counted(jobs, 'job')}`;
  const rate = rateOf(step);
  const share = step.skipped;
  const skipped = share && share.count > 0 ? ` It was skipped in ${say(share.count)} of ${say(share.total)} times on sealed records.` : '';
  if (failures === 0) {
    const likely =
      rate && rate.upper <= TELLING
        ? `; its rate of failure likely lies below ${perThousand(rate.upper)} in 1,000 times`
        : '; too few times to tell more';
    return `${applied}, and no callback was traced to it${likely}.${skipped}`;
  }
  const part =
    step.allFailures > failures ? `, ${Math.round((100 * failures) / step.allFailures)} % of all failures of the firm's steps` : '';
  const told =
    rate && rate.upper <= TELLING
      ? `: ${perThousand(rate.rate)} in 1,000 times, likely ${perThousand(rate.lower)} to ${perThousand(rate.upper)}`
      : '';
  return `${applied}; ${counted(failures, 'callback')} ${failures === 1 ? 'was' : 'were'} traced to it${told}${part}; ${failures === 1 ? 'it has' : 'they have'} cost ${formatUsd(step.incurredCents)} so far.${skipped}`;
}
