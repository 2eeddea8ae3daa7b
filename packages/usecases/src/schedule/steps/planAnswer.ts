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
  const groups = answered.flatMap(({ run, answer }) => answer.difference.groups.map((group) => grouped(group, run.input.day, seen)));
  const whole = joined(groups);
  const placed = new Set(whole.flatMap(({ moves }) => moves.filter(({ after }) => after !== null).map(({ visitId }) => visitId)));
  return answered.map(({ run, answer: { result, difference } }) => {
    const { day } = run.input;
    const { cost, bound, proven, gapPercent, within, stopped, parts } = result;
    const own = whole.filter((group) => group.day === day).map((group, at) => ({ ...kept(group), key: `${variant}/${day}/${at}` }));
    const shut = new Set(run.movable.map(({ id }) => id));
    const leftOut = result.leftOut
      .filter(({ visitId }) => seen[visitId]!.spot.day === day && !placed.has(visitId))
      .map(({ visitId, reasons }) => ({
        visitId,
        jobId: seen[visitId]!.jobId,
        label: seen[visitId]!.label,
        reasons: shut.has(visitId) ? ['Closed for weather, and no place is left on the days after.'] : reasons,
      }));
    const saved = { savingMinutes: difference.savingMinutes, drivingSavedMinutes: difference.drivingSavedMinutes };
    return {
      day,
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

const grouped = (group: MoveGroup, day: string, seen: Seen): Grouped => ({
  day,
  moves: group.moves.map((move) => keptMove(move, day, seen)),
  savingMinutes: group.savingMinutes,
  drivingSavedMinutes: group.drivingSavedMinutes,
});

function keptMove({ visitId, after, sentence }: PlanMove, day: string, seen: Seen): KeptMove {
  const { version, jobId, label, spot } = seen[visitId]!;
  const to: Spot | null = after === null ? null : { day, start: after.start, first: after.first, second: after.second };
  const said = to !== null && day !== spot.day ? `${sayDay(day)}: ${sentence} It was on ${sayDay(spot.day)}.` : sentence;
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
