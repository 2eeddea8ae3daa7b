// What an outlook assumes and what it cannot say, in plain sentences.
import { COSTS_KNOWN_AFTER_DAYS, ENOUGH } from '@backsight/domain/liability/outlook/scenario';
import { formatUsd } from '@backsight/domain/shared/money';
import { rowsOn, rowsWith, packOn, type RulePack } from '@backsight/domain/shared/rulePack';
import type { Past } from './basis.ts';

/** With holidays and closed weeks a firm still has jobs in so many. */
const WEEKS_OF_A_YEAR = 46;
const whole = (value: number): string => Math.round(value).toLocaleString('en-US');

/** Why figures are missing; empty where none is. */
export function lacking({ basis, costsKnown }: Past): string[] {
  const { jobsOfYear, callbacks, costs } = basis;
  if (jobsOfYear < ENOUGH.jobs)
    return [
      `Nothing can be estimated because only ${jobsOfYear} jobs were inspected in the 52 weeks before; ${ENOUGH.jobs} are the fewest to go by.`,
    ];
  if (!callbacks)
    return [`Callbacks and their cost cannot be estimated because fewer than ${ENOUGH.callbacks} are known of work that is ripe enough.`];
  if (!costs)
    return [
      `The cost of callbacks cannot be estimated because it is known for ${costsKnown} only; ${ENOUGH.costs} that came in ${COSTS_KNOWN_AFTER_DAYS} days ago or earlier are the fewest to go by.`,
    ];
  return [];
}

const ofCosts = ({ basis: { costs }, costsKnown }: Past): string[] => {
  if (!costs) return [];
  const costing = costs.cents.filter((cents) => cents > 0).length;
  const known = `What a callback costs comes from ${costsKnown} that came in ${COSTS_KNOWN_AFTER_DAYS} days ago or earlier, paid and set aside before anything came back: ${costing} cost something, the most ${formatUsd(Math.max(...costs.cents))}.`;
  return [
    known,
    costs.kind === 'fitted'
      ? 'Costs are drawn from a curve fitted to those that cost something (lognormal), because the worst so far need not be the worst to come.'
      : `Costs are drawn from those so far, because fewer than ${ENOUGH.costing} cost anything and no curve can be fitted: nothing dearer than the dearest so far can come up.`,
  ];
};

/** Everything that was taken for granted. */
export function assumptions(past: Past): string[] {
  const { basis, weeks, onSite, policy, step, ripened } = past;
  return [
    `Jobs: each week as the same week a year before (${whole(basis.jobsOfYear)} jobs in ${weeks.length} weeks with jobs), twice; no growth and no trend. How many these will be varies by chance.`,
    `Income: the mean fee of a job of that year, ${formatUsd(Math.round(basis.feeCents))}, before refunds and taxes. How many jobs another fee brings or costs is what you said, nothing else.`,
    ...(basis.callbacks
      ? [
          `Callbacks: all that jobs of these two years will ever bring, at the rate of ${whole(basis.callbacks.counted)} over ${whole(basis.callbacks.ripeJobs)} jobs${ripened ? ', young jobs counted as far as they have ripened' : ' inspected more than a year ago, because how callbacks ripen cannot be told yet'}. What work already done will bring is not in here.`,
        ]
      : []),
    ...ofCosts(past),
    policy
      ? `Insurance: the policy in force (${policy.insurer}, ${policy.number}) pays what exceeds its deductible of ${formatUsd(policy.deductibleCents)} for each callback, up to ${formatUsd(policy.limitCents)}. Whether it covers a case is the insurer's decision; here it always does, and the most for all claims of a period is never reached.`
      : 'Insurance: no professional liability policy is in force, so the firm pays all.',
    `Hours of pairs: visits as they were planned, ${whole(basis.minutesPerJob)} minutes a job${onSite.minutes === null ? '' : ` (records were open for ${whole(onSite.minutes)} minutes on the mean of ${onSite.records})`}. Driving and reports are not in them. Nobody's pace is looked at.`,
    ...(step && basis.step
      ? [
          `The step: it applied ${basis.step.timesPerJob.toFixed(1)} times a job; ${basis.step.traced} callbacks were traced to it, which need not be all. Minutes count in full for the pair. Its effect lies anywhere between the two that you gave.`,
        ]
      : []),
    'An agreed cap holds for everybody who brings something, and costs so far were paid under what held then.',
  ];
}

/** A year that is not whole repeats its gaps. */
export const yearCautions = ({ weeks }: Past): string[] =>
  weeks.length < WEEKS_OF_A_YEAR
    ? [
        `Jobs were inspected in only ${weeks.length} of the 52 weeks before: the others are repeated as weeks without any, and all sums are too low.`,
      ]
    : [];

/** What the law of the states where the firm works says of caps, where the scenario has one. */
export function capCautions(packs: readonly RulePack[], states: readonly string[], day: string): string[] {
  return states.flatMap((state) =>
    rowsWith(rowsOn(packOn(packs, state, day)?.rows ?? [], day), 'cap_barred').map(
      (row) => `${state}: ${row.words} (${row.citation}). Ask the firm's attorney before any agreement changes.`,
    ),
  );
}
