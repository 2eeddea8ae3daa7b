// Forming crews on the instances of the ROADEF challenge 2007. The product's day plan knows crews of one or two and has
// driving; these instances have crews of any size, an order among tasks, outsourcing and no driving. So this does not run
// the product's planner: it is a plain search for the same question, kept as a yardstick of how hard forming crews is.
// Best known values: bksTTSP.ods of github.com/mdeboute/ttsp_optim; A1 and A2 proven by exhaustive search.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Bench, Row } from './bench.ts';
import { improve } from './roadef/improve.ts';
import { readInstance } from './roadef/instance.ts';
import { faultsOf, objective, readSchedule } from './roadef/schedule.ts';

const BEST_KNOWN = { A1: 2340, A2: 4755, A3: 11_880, A4: 13_452, A5: 28_845, A6: 18_795, B1: 33_900, B9: 28_080 };
const TRIES = { A: 20_000, B: 3_000 };

/** Published solutions and what an independent check says of them: objective, and whether a rule is broken. */
const SOLUTIONS = [
  ['A1_1', 'A1', 2265, false],
  ['A1_3', 'A1', 2340, true],
  ['A2_1', 'A2', 4755, true],
  ['A2_3', 'A2', 4755, false],
  ['A5_h', 'A5', 36_945, true],
  ['B9_h', 'B9', 41_760, true],
] as const;

const folder = (): string => join(process.env['INSTANCES_DIR'] ?? 'instances', 'roadef2007');
const instance = (name: string) => readInstance(join(folder(), `dataset${name[0]}`, `data${name.slice(1)}`));

function checkTheChecker(): void {
  for (const [solution, name, cost, feasible] of SOLUTIONS) {
    const schedule = readSchedule(join(folder(), 'solutions', solution));
    const faults = faultsOf(instance(name), schedule);
    if (objective(instance(name), schedule) !== cost || (faults.length === 0) !== feasible)
      throw new Error(`the check is wrong about ${solution}`);
  }
}

function measure(name: keyof typeof BEST_KNOWN): Row {
  const asked = instance(name);
  const began = performance.now();
  const schedule = improve(asked, name.startsWith('A') ? TRIES.A : TRIES.B, 1);
  const faults = faultsOf(asked, schedule);
  if (faults.length > 0) throw new Error(`${name}: ${faults.join('; ')}`);
  const ours = objective(asked, schedule);
  const best = BEST_KNOWN[name];
  return {
    instance: name,
    people: asked.technicians.length,
    tasks: asked.tasks.length,
    ours,
    'best known': best,
    'gap %': Number((((ours - best) / ours) * 100).toFixed(1)),
    'wall ms': performance.now() - began,
  };
}

const bench: Bench = {
  about: 'forming crews, ROADEF challenge 2007: weighted last completions, gap to the best known value',
  run: (say) => {
    if (!existsSync(folder())) {
      say({ instance: `no instance files: INSTANCES_DIR names the folder that holds roadef2007` });
      return;
    }
    checkTheChecker();
    for (const name of Object.keys(BEST_KNOWN)) say(measure(name as keyof typeof BEST_KNOWN));
  },
};

export default bench;
