// Turns an order of tasks into days of crews: each task, in order, goes where it ends soonest for the fewest people more.
import { DAY_LENGTH, type Instance, type Task } from './instance.ts';
import type { Placed, Schedule } from './schedule.ts';

type Crew = { people: number[]; counts: number[]; end: number };
type Option = { crew: Crew | null; more: number[]; start: number; rank: number };
type DayState = { day: number; crews: Crew[]; free: Set<number> };

/** The order of tasks (by number) and how many units of time one person more is worth. */
export type Recipe = { order: number[]; personWorth: number };

const lacking = (need: number[], counts: number[] | null): number[] =>
  need.map((count, at) => Math.max(0, count - (counts === null ? 0 : counts[at]!)));

/** People of `free` who together supply what lacks, chosen greedily by what they bring, the least skilled first; null when they cannot. */
function recruits(instance: Instance, lack: number[], free: Set<number>): number[] | null {
  const open = [...lack];
  const chosen: number[] = [];
  while (open.some((count) => count > 0)) {
    let best = 0;
    let bestGain = 0;
    for (const person of free) {
      if (chosen.includes(person)) continue;
      const { has } = instance.technicians[person - 1]!;
      let gain = 0;
      let skill = 0;
      for (let at = 0; at < has.length; at++) {
        if (has[at] && open[at]! > 0) gain += 1;
        skill += has[at]!;
      }
      if (gain > 0 && gain - skill / 1000 > bestGain) {
        bestGain = gain - skill / 1000;
        best = person;
      }
    }
    if (best === 0) return null;
    chosen.push(best);
    const { has } = instance.technicians[best - 1]!;
    for (let at = 0; at < open.length; at++) open[at]! -= has[at]!;
  }
  return chosen;
}

function optionIn(instance: Instance, state: DayState, task: Task, crew: Crew | null, ready: number, personWorth: number): Option | null {
  const start = Math.max(ready, crew?.end ?? 0);
  if (start + task.duration > DAY_LENGTH) return null;
  const more = recruits(instance, lacking(task.need, crew?.counts ?? null), state.free);
  return more && { crew, more, start, rank: start + task.duration + more.length * personWorth };
}

function bestOption(instance: Instance, state: DayState, task: Task, ready: number, personWorth: number): Option | null {
  let best: Option | null = null;
  for (const crew of [...state.crews, null]) {
    const option = optionIn(instance, state, task, crew, ready, personWorth);
    if (option && (best === null || option.rank < best.rank)) best = option;
  }
  return best;
}

function place(instance: Instance, state: DayState, task: Task, option: Option): Placed {
  const crew = option.crew ?? { people: [], counts: task.need.map(() => 0), end: 0 };
  if (option.crew === null) state.crews.push(crew);
  for (const person of option.more) {
    state.free.delete(person);
    crew.people.push(person);
    const { has } = instance.technicians[person - 1]!;
    for (let at = 0; at < has.length; at++) crew.counts[at]! += has[at]!;
  }
  crew.end = option.start + task.duration;
  return { task: task.number, day: state.day, start: option.start, crew: state.crews.indexOf(crew) };
}

/** When the tasks before this one are done, in units of this day; null when one is still open. */
function readyAt(task: Task, day: number, done: Map<number, number>): number | null {
  let ready = 0;
  for (const before of task.before) {
    const end = done.get(before);
    if (end === undefined) return null;
    ready = Math.max(ready, end - (day - 1) * DAY_LENGTH);
  }
  return ready;
}

function fillDay(instance: Instance, recipe: Recipe, day: number, open: number[], done: Map<number, number>): [Placed[], Crew[], number[]] {
  const free = new Set(instance.technicians.filter((one) => !one.off.has(day)).map((one) => one.number));
  const state: DayState = { day, crews: [], free };
  const placed: Placed[] = [];
  let left = open;
  for (let before = -1; before !== left.length;) {
    before = left.length;
    left = left.filter((number) => {
      const task = instance.tasks[number - 1]!;
      const ready = readyAt(task, day, done);
      const option = ready === null ? null : bestOption(instance, state, task, ready, recipe.personWorth);
      if (!option) return true;
      placed.push(place(instance, state, task, option));
      done.set(number, (day - 1) * DAY_LENGTH + option.start + task.duration);
      return false;
    });
  }
  return [placed, state.crews, left];
}

const MOST_DAYS = 200;

/** The schedule of a recipe; tasks that are not in its order are outsourced. Throws when a task fits no day. */
export function build(instance: Instance, recipe: Recipe): Schedule {
  const done = new Map<number, number>();
  const schedule: Schedule = { placed: [], crews: [] };
  let open = recipe.order;
  for (let day = 1; open.length > 0; day++) {
    if (day > MOST_DAYS) throw new Error(`${instance.name}: tasks ${open.join(', ')} fit no day`);
    const [placed, crews, left] = fillDay(instance, recipe, day, open, done);
    schedule.placed.push(...placed);
    schedule.crews.push(crews.map((crew) => crew.people));
    open = left;
  }
  return schedule;
}
