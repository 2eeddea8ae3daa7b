// What follows: the first assessment, the check some weeks after closing, the appeal to an owner, and what the client says of it.
import { shiftDay } from '../shared/calendar.ts';
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';
import { needsConclusion, type Kind, type State } from './words.ts';

/** How grave it is for whoever brought it, in plain words. */
export const SEVERITIES = {
  nuisance: 'a nuisance: nothing is lost',
  loss: 'something is lost or must be repaired',
  unusable: 'a part of the house cannot be used',
  danger: 'somebody could be hurt',
} as const;
export type Severity = keyof typeof SEVERITIES;

export const CHECK_OUTCOMES = { held: 'it held', came_back: 'it came back', not_reached: 'nobody could be reached' } as const;
export type CheckOutcome = keyof typeof CHECK_OUTCOMES;

export const APPEAL_RESULTS = { upheld: 'the decision stands', changed: 'the decision was changed' } as const;
export type AppealResult = keyof typeof APPEAL_RESULTS;

export const ANSWERS = {
  very_well: 'Very well',
  well: 'Well',
  neither: 'Neither well nor badly',
  badly: 'Badly',
  very_badly: 'Very badly',
} as const;
export type ClientAnswer = keyof typeof ANSWERS;

/**
 * Calendar days. Customary: asking again 30 days after closing (common practice); about one month to appeal and one to decide an appeal (one
 * certification body's page says a month).
 */
export type AfterRules = { checkDays: number; appealDays: number; decideDays: number };

/** Only what was judged is asked after: neither a question nor a request for records, and nobody waits for a near-miss. */
export const isCheckedAfter = (kind: Kind): boolean => needsConclusion(kind) && kind !== 'near_miss';

/** The day on which it is asked whether it held. */
export const checkDay = (closedOn: string, { checkDays }: AfterRules): string => shiftDay(closedOn, checkDays);

/** What is answered at a check. `againOn`: when to try once more, where nobody was reached. */
export type CheckAnswer = { outcome: CheckOutcome; againOn?: string; repeatId?: string };

/**
 * Whether a check may be answered so, and whether the callback opens again by it: it does when it came back and no newer callback says so.
 * Refusals: check-not-open, check-again-only, due-day-past, repeat-is-itself.
 */
export function decideCheck(
  facts: { open: boolean; state: State; today: string; id: string },
  { outcome, againOn, repeatId }: CheckAnswer,
): Outcome<{ reopens: boolean }> {
  if (!facts.open) return refuse('check-not-open');
  if (againOn !== undefined && outcome !== 'not_reached') return refuse('check-again-only', {}, 'againOn');
  if (againOn !== undefined && againOn < facts.today) return refuse('due-day-past', { day: againOn }, 'againOn');
  if (repeatId === facts.id) return refuse('repeat-is-itself', {}, 'repeatId');
  return accept({ reopens: outcome === 'came_back' && repeatId === undefined && facts.state === 'closed' });
}

export type AppealOn = {
  kind: Kind;
  ownerOnly: boolean;
  today: string;
  /** Day of the newest letter that told a decision; null when none was told. */
  toldOn: string | null;
  /** Day of the newest appeal, decided or not. */
  appealedOn: string | null;
  appealOpen: boolean;
};

/** The last day on which a decision that was told can be appealed. */
export const appealUntil = (toldOn: string, { appealDays }: AfterRules): string => shiftDay(toldOn, appealDays);

/**
 * Whether a decision can be appealed now, and by when the appeal is decided. Every decision once.
 * Refusals: no-letter-in-this, nothing-to-appeal, appeal-open, appealed-already, appeal-late.
 */
export function mayAppeal(on: AppealOn, rules: AfterRules): Outcome<{ dueOn: string }> {
  if (on.ownerOnly || on.kind === 'near_miss') return refuse('no-letter-in-this');
  if (on.toldOn === null || !needsConclusion(on.kind)) return refuse('nothing-to-appeal');
  if (on.appealOpen) return refuse('appeal-open');
  if (on.appealedOn !== null && on.appealedOn >= on.toldOn) return refuse('appealed-already');
  const until = appealUntil(on.toldOn, rules);
  if (on.today > until) return refuse('appeal-late', { day: until });
  return accept({ dueOn: shiftDay(on.today, rules.decideDays) });
}

/** One who could decide an appeal. `involved`: concluded the callback, decided the last appeal of it, or was on the job. */
export type Decider = { id: string; name: string; involved: boolean };

/**
 * Whether this owner may decide: one who neither concluded nor was on the job, where the firm has one; else `reviewer` says who from outside
 * looked at it, or that nobody else could. ISO/IEC 17025:2017, 7.9.6: decided by persons not involved in the original work, where possible.
 * Refusals: appeal-not-open, appeal-for-other-owner, appeal-needs-reviewer.
 */
export function decideAppeal(
  facts: { open: boolean; by: Decider; owners: readonly Decider[]; state: State },
  { result, reviewer }: { result: AppealResult; reviewer: string },
): Outcome<{ involved: boolean; state: State }> {
  if (!facts.open) return refuse('appeal-not-open');
  const { involved } = facts.by;
  const others = facts.owners.filter((one) => one.id !== facts.by.id && !one.involved);
  if (involved && others.length > 0) return refuse('appeal-for-other-owner', { names: others.map(({ name }) => name) });
  if (involved && reviewer.trim() === '') return refuse('appeal-needs-reviewer', {}, 'reviewer');
  const warnings: Warning[] = involved
    ? [{ code: 'appeal-decider-involved', text: 'Whoever decided this appeal had concluded it or was on the job; the letter says so.' }]
    : [];
  const opens = result === 'changed' && facts.state === 'closed';
  return accept({ involved, state: opens ? 'looking_into' : facts.state }, warnings);
}

/** Days after closing in which a client may say, and say otherwise, how well it was handled. */
export const ANSWER_DAYS = 30;

/** Whether the client may answer now. Days are ISO. Refusals: answer-not-yet, answer-late. */
export function mayAnswer(on: { state: State; closedOn: string | null; today: string }): Outcome<null> {
  if (on.state !== 'closed' || on.closedOn === null) return refuse('answer-not-yet');
  const until = shiftDay(on.closedOn, ANSWER_DAYS);
  return on.today > until ? refuse('answer-late', { day: until }) : accept(null);
}
