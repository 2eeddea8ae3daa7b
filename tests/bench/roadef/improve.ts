// Looks for a good order of tasks: the best of simple orders, then annealing over single moves.
import { randomOf, type Random } from '../random.ts';
import { build, type Recipe } from './build.ts';
import { DAY_LENGTH, type Instance, type Task } from './instance.ts';
import { objective, type Schedule } from './schedule.ts';

/** Share of the cost by which a worse order may still be taken at the beginning. */
const HEAT = 0.004;
const SIZE_WEIGHT = [28, 14, 4, 1];
const PERSON_WORTH = [0, 5, 15, 30, 60, 120];

const people = (task: Task): number => Math.max(1, ...task.need);

/** Tasks to outsource: most person-time for the money (or the most urgent of it), with all that follow them, within the budget. */
function outsourced(instance: Instance, urgentFirst: boolean): Set<number> {
  const gone = new Set<number>();
  let money = instance.budget;
  const followers = (number: number): number[] =>
    instance.tasks.filter((task) => task.before.includes(number)).flatMap((task) => [task.number, ...followers(task.number)]);
  const worth = (task: Task): number => (task.duration * people(task) * (urgentFirst ? SIZE_WEIGHT[task.priority - 1]! : 1)) / task.cost;
  for (const task of [...instance.tasks].sort((a, b) => worth(b) - worth(a))) {
    const group = [...new Set([task.number, ...followers(task.number)])].filter((number) => !gone.has(number));
    const cost = group.reduce((sum, number) => sum + instance.tasks[number - 1]!.cost, 0);
    if (cost > money) continue;
    money -= cost;
    for (const number of group) gone.add(number);
  }
  return gone;
}

const permutations = <T>(items: T[]): T[][] =>
  items.length < 2 ? [items] : items.flatMap((one, at) => permutations(items.toSpliced(at, 1)).map((rest) => [one, ...rest]));

/** Every order of the priorities, inside each the largest tasks first. */
function simpleOrders(instance: Instance, urgentFirst: boolean): number[][] {
  const gone = outsourced(instance, urgentFirst);
  const tasks = instance.tasks.filter((task) => !gone.has(task.number));
  return permutations([1, 2, 3, 4]).map((ranks) =>
    [...tasks]
      .sort((a, b) => ranks.indexOf(a.priority) - ranks.indexOf(b.priority) || b.duration * people(b) - a.duration * people(a))
      .map((task) => task.number),
  );
}

/** The objective, with a small share of every task's own end, so that progress shows before a last end moves. */
function guided(instance: Instance, schedule: Schedule): number {
  const ends = schedule.placed.reduce((sum, one) => {
    const task = instance.tasks[one.task - 1]!;
    return sum + SIZE_WEIGHT[task.priority - 1]! * ((one.day - 1) * DAY_LENGTH + one.start + task.duration);
  }, 0);
  return objective(instance, schedule) + (0.5 * ends) / instance.tasks.length;
}

function changed(recipe: Recipe, random: Random): Recipe {
  if (random.chance(0.03)) return { ...recipe, personWorth: PERSON_WORTH[random.int(PERSON_WORTH.length)]! };
  const order = [...recipe.order];
  const from = random.int(order.length);
  const to = random.chance(0.5) ? random.int(order.length) : Math.min(order.length - 1, Math.max(0, from + random.int(13) - 6));
  if (random.chance(0.5)) order.splice(to, 0, order.splice(from, 1)[0]!);
  else [order[from], order[to]] = [order[to]!, order[from]!];
  return { ...recipe, order };
}

/** The best schedule found with so many tries; the same for the same arguments. */
export function improve(instance: Instance, tries: number, seed: number): Schedule {
  const random = randomOf(seed);
  const rated = (recipe: Recipe) => {
    const schedule = build(instance, recipe);
    return { recipe, schedule, guided: guided(instance, schedule), cost: objective(instance, schedule) };
  };
  const orders = [false, true].flatMap((urgentFirst) => simpleOrders(instance, urgentFirst));
  const firsts = orders.flatMap((order) => PERSON_WORTH.map((personWorth) => rated({ order, personWorth })));
  let now = firsts.reduce((best, one) => (one.guided < best.guided ? one : best));
  let best = now;
  for (let at = 0; at < tries; at++) {
    const heat = now.cost * HEAT * (1 - at / tries) ** 2;
    const next = rated(changed(now.recipe, random));
    if (next.guided <= now.guided || random.unit() < Math.exp((now.guided - next.guided) / Math.max(heat, 1e-9))) now = next;
    if (now.cost < best.cost) best = now;
  }
  return best.schedule;
}
