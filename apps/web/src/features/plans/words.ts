// Plans in words: what each weight is for, how far a plan is, how good it is.
import type { DayAnswer, PlanProgress, PlanVariantAnswer, PlanWeights } from '@backsight/contract/plans';
import { minutesText } from '../../ui/minutes.ts';

export const WEIGHTS: readonly (readonly [keyof PlanWeights, string, string])[] = [
  ['travel', 'A minute of driving', 'for each person in the car'],
  ['wait', 'A minute of waiting', 'of each person between two visits'],
  ['overtime', 'A minute of overtime', 'past the working hours, report writing included'],
  ['overTarget', 'A minute above the fair share', 'of the work of the last four weeks'],
  ['underTarget', 'A minute below the fair share', 'of somebody who works that day'],
  ['rotation', 'The same pair as yesterday', 'less for each day that lies between'],
  [
    'unannounced',
    'Somebody else than was announced',
    'each person, from tomorrow’s visits back; a third of it where the same two change who goes first',
  ],
  ['movedStart', 'An announced start that moves', 'each person of the pair, however far it moves'],
  ['movedMinute', 'Each minute that it moves', 'each person of the pair'],
  ['brokenPromise', 'A start outside what was promised', 'only when somebody is out or the weather is bad'],
  ['leftOut', 'A visit that finds no place', 'high, so that it only happens when nothing else is possible'],
];

export const VARIANT: Record<PlanVariantAnswer['key'], string> = {
  plan: 'The plan',
  fewest_changes: 'Fewest changes',
  balanced: 'Balanced',
  cheapest: 'Cheapest',
};

/** Gaps from here on, in minutes, are about visits that find no place. */
const A_VISIT = 1000;

/** How good the plan of a day is, so that nobody has to trust it. */
export const proofText = (day: DayAnswer): string => `${pairsText(day)}${partnersText(day)}`;

const partnersText = ({ partnersSaveMinutes }: DayAnswer): string =>
  partnersSaveMinutes === undefined
    ? ''
    : partnersSaveMinutes >= A_VISIT
      ? ' Partners who change during the day make room for a visit more; nothing is proven of such plans.'
      : ` Partners who change during the day save another ${minutesText(partnersSaveMinutes)}; nothing is proven of such plans.`;

function pairsText({ proven, cost, bound, gapPercent, stopped, within }: DayAnswer): string {
  if (proven)
    return within === 'crews that stay together'
      ? 'Proven: no plan in which pairs stay together all day is better under these weights.'
      : 'Proven among routes without much waiting or long drives: none is better under these weights.';
  const ended = stopped ? ' The search was ended before it was done.' : '';
  if (cost - bound >= A_VISIT) return `Not proven: perhaps one visit more could find a place.${ended}`;
  return `A better plan may exist, but none can save more than another ${minutesText(cost - bound)} (${gapPercent.toFixed(1)} %).${ended}`;
}

const PHASE: Record<NonNullable<PlanProgress['phase']>, string> = {
  routes: 'listing the ways that are possible',
  'first plan': 'looking for a first plan',
  bound: 'working out what is possible at best',
  cuts: 'narrowing down what is possible at best',
  proof: 'proving that nothing is better',
};

/** What the planner is doing now. */
export function progressText(progress: PlanProgress | null): string {
  if (!progress) return 'The plan is about to begin.';
  if (progress.waiting > 0) return `${progress.waiting === 1 ? 'One plan is' : `${progress.waiting} plans are`} made before this one.`;
  const part = progress.of > 1 ? `Part ${Math.min(progress.done + 1, progress.of)} of ${progress.of}: ` : '';
  const phase = progress.phase ? PHASE[progress.phase] : 'reading the days';
  return `${part}${progress.stopping ? 'stopping with the best so far' : phase}.`;
}

/** The best so far and what is left to gain; null before there is any. */
export function bestText({ cost, bound }: PlanProgress): string | null {
  if (cost === null) return null;
  const best = `Best plan so far: ${minutesText(cost)} of driving, waiting and the like.`;
  return bound === null ? best : `${best} At most ${minutesText(Math.max(0, cost - bound))} less is possible.`;
}
