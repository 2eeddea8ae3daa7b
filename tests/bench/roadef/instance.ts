// Instances of the ROADEF challenge 2007 (Dutot, Laugier, Bustos: Technicians and interventions scheduling for
// telecommunications, 2006-2007) as its files give them. The files stay where they are and are no part of the project.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** A working day has this many units of time. */
export const DAY_LENGTH = 120;

export type Task = {
  number: number;
  duration: number;
  before: number[];
  priority: number;
  cost: number;
  /** How many people of at least that level, by domain and level. */
  need: number[];
};
export type Technician = {
  number: number;
  /** 1 where the person has at least that level, by domain and level. */ has: number[];
  off: Set<number>;
};
export type Instance = { name: string; budget: number; tasks: Task[]; technicians: Technician[] };

const rows = (folder: string, file: string): string[] =>
  readFileSync(join(folder, file), 'utf8')
    .split('\n')
    .slice(1)
    .filter((line) => line.trim() !== '');

const numbers = (text: string): number[] => (text.match(/\d+/gu) ?? []).map(Number);

/** Parts of a line whose middle is a list in brackets. */
function aroundList(line: string): [number[], number[], number[]] {
  const [before = '', rest = ''] = line.split('[');
  const [inside = '', after = ''] = rest.split(']');
  return [numbers(before), numbers(inside), numbers(after)];
}

function taskOf(line: string): Task {
  const [[number = 0, duration = 0], before, [priority = 0, cost = 0, ...need]] = aroundList(line);
  return { number, duration, before, priority, cost, need };
}

function technicianOf(line: string, levels: number): Technician {
  const [[number = 0, ...skill], off] = aroundList(line);
  const has = skill.flatMap((level) => Array.from({ length: levels }, (_, at) => (level > at ? 1 : 0)));
  return { number, has, off: new Set(off) };
}

/** Reads the three files of an instance. Throws when one is missing. */
export function readInstance(folder: string): Instance {
  const [name = '', , levels = '0', , , budget = '0'] = rows(folder, 'instance')[0]!.trim().split(/\s+/u);
  return {
    name,
    budget: Number(budget),
    tasks: rows(folder, 'interv_list').map(taskOf),
    technicians: rows(folder, 'tech_list').map((line) => technicianOf(line, Number(levels))),
  };
}
