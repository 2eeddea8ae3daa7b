// Who goes where and who goes with whom: published optima of assignment and matching, by the planner's solver and the planner.
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import { planDay } from '@backsight/scheduling/plan/planDay';
import type { LpSolver, MipProblem } from '@backsight/scheduling/plan/solver';
import type { Travel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../apps/api/src/adapters/solver/highs.ts';
import { planInput, planPerson, planVisit } from '../domain/scheduling/plan/dayCast.ts';
import { assignments, matchings, orLibrary, pairsToJobs } from './data/pairing.ts';

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

type Chosen = { rows: number[]; cost: number };

/** Least cost of columns that take each row at least `least` and at most `most` times. */
function cheapest(columns: readonly Chosen[], least: readonly number[], most: readonly number[]): number {
  const starts = new Int32Array(columns.length + 1);
  columns.forEach(({ rows }, at) => (starts[at + 1] = starts[at]! + rows.length));
  const rows = Int32Array.from(columns.flatMap((column) => column.rows));
  const problem: MipProblem = {
    rows: { lower: Float64Array.from(least), upper: Float64Array.from(most) },
    columns: {
      cost: Float64Array.from(columns, ({ cost }) => cost),
      upper: new Float64Array(columns.length).fill(1),
      starts,
      rows,
      values: new Float64Array(rows.length).fill(1),
    },
  };
  const solved = solver.solveMip(problem, { maxNodes: 10_000, absoluteGap: 1e-6, relativeGap: 0 });
  expect(solved.status).toBe('optimal');
  return solved.objective;
}

function assign(cost: readonly number[][]): number {
  const [n, m] = [cost.length, cost[0]!.length];
  const columns = cost.flatMap((row, i) => row.map((one, j) => ({ rows: [i, n + j], cost: one })));
  const each = (count: number, value: number) => Array.from({ length: count }, () => value);
  return cheapest(columns, [...each(n, 1), ...each(m, n === m ? 1 : 0)], each(n + m, 1));
}

describe('assignment', () => {
  it.each(assignments)('$name ($source; $status)', ({ cost, most, optimum }) => {
    const signed = most ? cost.map((row) => row.map((one) => -one)) : cost;
    expect(Math.abs(assign(signed))).toBeCloseTo(optimum, 6);
  });

  const file = path.join(process.env['INSTANCES_DIR'] ?? '', 'orlib/assign100.txt');
  it.skipIf(!existsSync(file))(`${orLibrary.name} (${orLibrary.source}; ${orLibrary.status}), where its file is at hand`, () => {
    const [size = 0, ...numbers] = readFileSync(file, 'utf8').trim().split(/\s+/).map(Number);
    const cost = Array.from({ length: size }, (_, row) => numbers.slice(row * size, (row + 1) * size));
    expect(assign(cost)).toBeCloseTo(orLibrary.optimum, 6);
  });
});

describe('matching', () => {
  it.each(matchings)('$name ($source; $status)', ({ edges, most, pairs, weight }) => {
    const people = [...new Set(edges.flatMap(([a, b]) => [a, b]))];
    const columns = edges.map(([a, b, one]) => ({ rows: [people.indexOf(a), people.indexOf(b), people.length], cost: most ? -one : one }));
    const none = people.map(() => 0);
    const found = cheapest(columns, [...none, pairs ?? 0], [...none.map(() => 1), pairs ?? people.length]);
    expect(most ? -found : found).toBeCloseTo(weight, 6);
  });
});

describe('pairs sent to jobs, by the day planner', () => {
  it.each(pairsToJobs)('$name ($source; $status)', async ({ people, jobs, apart, optimum }) => {
    const travel: Travel = {
      sourceOf: () => 'manual',
      minutes: (from, to) =>
        jobs.some(({ x, y }) => x === to.lat && y === to.lon) ? Math.abs(from.lat - to.lat) + Math.abs(from.lon - to.lon) : 0,
    };
    const input = planInput({
      people: people.map(({ id, skills, lead, x, y }) =>
        planPerson(id, {
          mayLead: lead,
          base: { lat: x, lon: y },
          qualifications: skills.map((skill) => ({ key: `skill ${skill}`, until: null })),
        }),
      ),
      visits: jobs.map(({ id, needs, x, y }) =>
        planVisit(id, { place: { lat: x, lon: y }, window: { from: 600, until: 600 }, needAny: needs.map((need) => `skill ${need}`) }),
      ),
      pairRules: apart.map(([a, b]) => ({ kind: 'never_together', a, b })),
      weights: { ...PLAN_WEIGHTS, wait: 0, overTarget: 0, underTarget: 0, rotation: 0, leftOut: 60 },
    });
    expect(await planDay(input, { solver, travel })).toMatchObject({ cost: optimum, proven: true });
  });
});
