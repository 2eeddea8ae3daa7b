// The planner's answer turned into what is kept: moves in groups, also of visits that go to another day.
import {
  PLAN_VARIANTS,
  type DayAnswer,
  type KeptGroup,
  type KeptMove,
  type PlanAnswer,
  type PlanVariant,
  type Spot,
} from '@backsight/domain/schedule/plans';
import type { MoveGroup, PlanMove } from '@backsight/scheduling/plan/model';
import { dayAndMinute, daysOf as daysPlanned } from '@backsight/scheduling/plan/days';
import { sayDay } from '@backsight/scheduling/time';
import type { PlanRun, Prepared, RunAnswer } from './planTask.ts';

type Answered = { run: PlanRun; answer: NonNullable<RunAnswer> };
type Seen = Prepared['seen'];

/** The answer as it is kept, variant by variant in the order of the task. */
export function answerOf({ task, seen }: Pick<Prepared, 'task' | 'seen'>, answers: readonly RunAnswer[]): PlanAnswer {
  const answered = task.runs.flatMap((run, at) => (answers[at] ? [{ run, answer: answers[at] }] : []));
  const variants = PLAN_VARIANTS.filter((key) => task.runs.some(({ chain }) => chain === key));
  return {
    variants: variants.map((key) => ({
      key,
      days: daysOf(
        key,
        answered.filter(({ run }) => run.chain === key),
        seen,
      ),
    })),
  };
}

function daysOf(variant: PlanVariant, answered: readonly Answered[], seen: Seen): DayAnswer[] {
  const groups = answered.flatMap(({ run, answer }) => answer.difference.groups.map((group) => grouped(group, run.input, seen)));
  const whole = joined(groups);
  const placed = new Set(whole.flatMap(({ moves }) => moves.filter(({ after }) => after !== null).map(({ visitId }) => visitId)));
  return answered.map(({ run, answer }) => {
    const { result, difference } = answer;
    const { day } = run.input;
    const days = daysPlanned(run.input);
    const { cost, bound, proven, gapPercent, within, stopped, parts } = result;
    const own = whole.filter((group) => days.includes(group.day)).map((group, at) => ({ ...kept(group), key: `${variant}/${day}/${at}` }));
    const shut = new Set(run.movable.map(({ id }) => id));
    const leftOut = result.leftOut
      .filter(({ visitId }) => days.includes(seen[visitId]!.spot.day) && !placed.has(visitId))
      .map(({ visitId, reasons }) => ({
        visitId,
        jobId: seen[visitId]!.jobId,
        label: seen[visitId]!.label,
        reasons: shut.has(visitId) ? ['Closed for weather, and no place is left on the days after.'] : reasons,
      }));
    const saved = { savingMinutes: difference.savingMinutes, drivingSavedMinutes: difference.drivingSavedMinutes };
    return {
      day,
      ...(days.length > 1 ? { toDay: days.at(-1)! } : {}),
      ...(answer.partnersSave > 0 ? { partnersSaveMinutes: answer.partnersSave } : {}),
      cost,
      bound,
      proven,
      gapPercent,
      within,
      stopped,
      parts,
      visits: run.input.visits.length,
      groups: own,
      ...saved,
      leftOut,
    };
  });
}

/** A group on its way: `day` is where it is shown, the first of its days. */
type Grouped = Omit<KeptGroup, 'key'> & { day: string };

const kept = ({ day: _, ...group }: Grouped): Omit<KeptGroup, 'key'> => group;

const grouped = (group: MoveGroup, input: PlanRun['input'], seen: Seen): Grouped => ({
  day: input.day,
  moves: group.moves.map((move) => keptMove(move, input, seen)),
  savingMinutes: group.savingMinutes,
  drivingSavedMinutes: group.drivingSavedMinutes,
  ...named(group.moves.flatMap((move) => awayFrom(move, input))),
});

const named = (names: readonly string[]): Pick<KeptGroup, 'away'> => (names.length === 0 ? {} : { away: [...new Set(names)].sort() });

/** Those of the crew of now who are away at the time of the visit. */
function awayFrom({ visitId, before }: PlanMove, { day, people, visits }: PlanRun['input']): string[] {
  if (before === null) return [];
  const minutes = visits.find(({ id }) => id === visitId)!.durationMinutes;
  const at = dayAndMinute(day, before.start);
  return people
    .filter(({ id }) => id === before.first || id === before.second)
    .filter(({ off }) => off.some((one) => one.day === at.day && one.start < at.minute + minutes && one.end > at.minute))
    .map(({ name }) => name);
}

function keptMove({ visitId, after, sentence }: PlanMove, input: PlanRun['input'], seen: Seen): KeptMove {
  const { version, jobId, label, spot } = seen[visitId]!;
  const at = after === null ? null : dayAndMinute(input.day, after.start);
  const to: Spot | null =
    after === null || at === null ? null : { day: at.day, start: at.minute, first: after.first, second: after.second };
  const said =
    to !== null && input.span === undefined && to.day !== spot.day
      ? `${sayDay(to.day)}: ${sentence} It was on ${sayDay(spot.day)}.`
      : sentence;
  return { visitId, version, jobId, label, before: spot, after: to, sentence: said };
}

/** Groups that speak of one visit, left out here and placed there, become one. */
function joined(groups: readonly Grouped[]): Grouped[] {
  const list: Grouped[] = [];
  for (const group of groups) {
    const shares = list.filter(({ moves }) => moves.some((move) => group.moves.some(({ visitId }) => visitId === move.visitId)));
    const all = [...shares, group];
    for (const one of shares) list.splice(list.indexOf(one), 1);
    list.push({
      day: all.map(({ day }) => day).sort()[0]!,
      moves: onceEach(all.flatMap(({ moves }) => moves)),
      savingMinutes: all.reduce((sum, one) => sum + one.savingMinutes, 0),
      drivingSavedMinutes: all.reduce((sum, one) => sum + one.drivingSavedMinutes, 0),
      ...named(all.flatMap(({ away = [] }) => away)),
    });
  }
  return list;
}

/** Of a visit that is left out on one day and placed on another, the placing. */
const onceEach = (moves: readonly KeptMove[]): KeptMove[] =>
  moves.filter(
    (move, at) =>
      !moves.some(
        (other, n) => other.visitId === move.visitId && n !== at && (move.after === null ? other.after !== null || n < at : false),
      ),
  );
