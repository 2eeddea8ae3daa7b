// A schedule of crews and tasks, what it costs, and an independent check of every rule of the challenge.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { DAY_LENGTH, type Instance, type Task } from './instance.ts';

/** A day starts at 0; crews are counted from 0 on each day. */
export type Placed = { task: number; day: number; start: number; crew: number };
export type Schedule = { placed: Placed[]; /** People of each crew, by day from 1. */ crews: number[][][] };

const WEIGHTS = [28, 14, 4];

/** 28 C1 + 14 C2 + 4 C3 + C: weighted last completions of priorities 1 to 3 and of all tasks. */
export function objective(instance: Instance, schedule: Schedule): number {
  const last = [0, 0, 0, 0];
  for (const one of schedule.placed) {
    const task = instance.tasks[one.task - 1]!;
    const end = (one.day - 1) * DAY_LENGTH + one.start + task.duration;
    if (task.priority <= 3) last[task.priority - 1] = Math.max(last[task.priority - 1]!, end);
    last[3] = Math.max(last[3]!, end);
  }
  return WEIGHTS.reduce((sum, weight, at) => sum + weight * last[at]!, last[3]!);
}

const endOf = (instance: Instance, one: Placed): number => (one.day - 1) * DAY_LENGTH + one.start + instance.tasks[one.task - 1]!.duration;

function crewFaults(instance: Instance, schedule: Schedule): string[] {
  return schedule.crews.flatMap((crews, at) => {
    const out = crews.flat();
    const twice = out.length !== new Set(out).size ? [`day ${at + 1}: somebody is in two crews`] : [];
    const off = out.filter((person) => instance.technicians[person - 1]!.off.has(at + 1));
    return [...twice, ...off.map((person) => `day ${at + 1}: technician ${person} is off`)];
  });
}

function skillFault(instance: Instance, schedule: Schedule, one: Placed, task: Task): string[] {
  const crew = schedule.crews[one.day - 1]?.[one.crew] ?? [];
  const short = task.need.some((count, at) => crew.filter((person) => instance.technicians[person - 1]!.has[at]).length < count);
  return short ? [`task ${task.number}: the crew lacks a skill`] : [];
}

function orderFaults(instance: Instance, schedule: Schedule, one: Placed, task: Task): string[] {
  const at = new Map(schedule.placed.map((other) => [other.task, other]));
  return task.before.flatMap((before) => {
    const other = at.get(before);
    if (!other) return [`task ${task.number} follows ${before}, which is outsourced`];
    const start = (one.day - 1) * DAY_LENGTH + one.start;
    return endOf(instance, other) > start ? [`task ${task.number} starts before ${before} ends`] : [];
  });
}

function overlapFaults(instance: Instance, schedule: Schedule): string[] {
  const sorted = [...schedule.placed].sort((a, b) => a.day - b.day || a.crew - b.crew || a.start - b.start);
  return sorted.flatMap((one, at) => {
    const next = sorted[at + 1];
    if (!next || next.day !== one.day || next.crew !== one.crew) return [];
    return endOf(instance, one) > (next.day - 1) * DAY_LENGTH + next.start ? [`tasks ${one.task} and ${next.task} overlap`] : [];
  });
}

/** Every broken rule; empty when the schedule is feasible. */
export function faultsOf(instance: Instance, schedule: Schedule): string[] {
  const placed = new Set(schedule.placed.map((one) => one.task));
  const outsourced = instance.tasks.filter((task) => !placed.has(task.number)).reduce((sum, task) => sum + task.cost, 0);
  return [
    ...(outsourced > instance.budget ? [`outsourced for ${outsourced}, budget ${instance.budget}`] : []),
    ...crewFaults(instance, schedule),
    ...overlapFaults(instance, schedule),
    ...schedule.placed.flatMap((one) => {
      const task = instance.tasks[one.task - 1]!;
      const late = one.start < 0 || one.start + task.duration > DAY_LENGTH ? [`task ${task.number} leaves the day`] : [];
      return [...late, ...skillFault(instance, schedule, one, task), ...orderFaults(instance, schedule, one, task)];
    }),
  ];
}

/** A solution as the challenge's files give it; the first list of people of a day is those who do not work. */
export function readSchedule(folder: string): Schedule {
  const lines = (file: string): string[] =>
    readFileSync(join(folder, file), 'utf8')
      .split('\n')
      .filter((line) => line.trim() !== '');
  const placed = lines('interv_dates').map((line) => {
    const [task = 0, day = 0, start = 0, crew = 0] = line.trim().split(/\s+/u).map(Number);
    return { task, day, start, crew: crew - 1 };
  });
  const crews: number[][][] = [];
  for (const line of lines('tech_teams')) {
    const groups = [...line.matchAll(/\[([^\]]*)\]/gu)].map((group) => (group[1]!.match(/\d+/gu) ?? []).map(Number));
    crews[Number.parseInt(line, 10) - 1] = groups.slice(1);
  }
  return { placed, crews: Array.from(crews, (day) => day ?? []) };
}
