// Routes of vehicles with time windows, whole: every route that nothing dominates, then the cheapest that cover all customers.
// The method of the day plan (columns with a proof by reduced cost) on a published problem of one depot.
import type { Columns, LpSolver } from '@backsight/scheduling/plan/solver';
import type { Stop } from './data/solomon25.ts';

/** Customers as bits, and tenths of distance. */
type Route = { customers: number; cost: number };
type Label = { customers: number; last: number; time: number; cost: number; load: number };

/** Tenths of the Euclidean distance, truncated. */
export const tenths = (a: Stop, b: Stop): number => Math.floor(Math.hypot(a[0] - b[0], a[1] - b[1]) * 10 + 1e-9);

function extended(stops: readonly Stop[], distance: readonly number[][], capacity: number, label: Label): Label[] {
  const [, , , , closing] = stops[0]!;
  return stops.flatMap(([, , demand, earliest, latest, service], next) => {
    const drive = distance[label.last]![next]!;
    const time = Math.max(earliest * 10, label.time + (label.last === 0 ? 0 : stops[label.last]![5] * 10) + drive);
    const fits = next > 0 && ((label.customers >> (next - 1)) & 1) === 0 && label.load + demand <= capacity;
    if (!fits || time > latest * 10 || time + service * 10 + distance[next]![0]! > closing * 10) return [];
    return [{ customers: label.customers | (1 << (next - 1)), last: next, time, cost: label.cost + drive, load: label.load + demand }];
  });
}

/** Keeps, for each set and last customer, the labels that no other beats in time and cost. */
function undominated(labels: readonly Label[]): Label[] {
  const kept = new Map<string, Label[]>();
  for (const one of labels) {
    const key = `${one.customers}:${one.last}`;
    const others = kept.get(key) ?? [];
    if (others.some((other) => other.time <= one.time && other.cost <= one.cost)) continue;
    kept.set(key, [...others.filter((other) => one.time > other.time || one.cost > other.cost), one]);
  }
  return [...kept.values()].flat();
}

/** The cheapest order for every set of customers that one vehicle can serve. */
export function everyRoute(stops: readonly Stop[], capacity: number): Route[] {
  const distance = stops.map((a) => stops.map((b) => tenths(a, b)));
  const best = new Map<number, number>();
  let layer: Label[] = [{ customers: 0, last: 0, time: 0, cost: 0, load: 0 }];
  while (layer.length > 0) {
    layer = undominated(layer.flatMap((label) => extended(stops, distance, capacity, label)));
    for (const { customers, last, cost } of layer) {
      const whole = cost + distance[last]![0]!;
      if (whole < (best.get(customers) ?? Infinity)) best.set(customers, whole);
    }
  }
  return [...best].map(([customers, cost]) => ({ customers, cost }));
}

function packed(routes: readonly Route[], customers: number, upper: number): Columns {
  const rows: number[] = [];
  const starts = new Int32Array(routes.length + 1);
  routes.forEach((route, at) => {
    for (let one = 0; one < customers; one++) if ((route.customers >> one) & 1) rows.push(one);
    starts[at + 1] = rows.length;
  });
  const cost = Float64Array.from(routes, (route) => route.cost);
  return {
    cost,
    upper: new Float64Array(routes.length).fill(upper),
    starts,
    rows: Int32Array.from(rows),
    values: new Float64Array(rows.length).fill(1),
  };
}

/** Least total distance that serves every customer once, in distance units, by column generation and a proof. */
export function leastDistance(solver: LpSolver, routes: readonly Route[], customers: number): { relaxed: number; whole: number } {
  const once = { lower: new Float64Array(customers).fill(1), upper: new Float64Array(customers).fill(1) };
  const session = solver.open(once);
  const used = routes.filter(({ customers: set }) => (set & (set - 1)) === 0);
  session.addColumns(packed(used, customers, Infinity));
  for (;;) {
    const { objective, duals } = session.solve()!;
    const worth = (route: Route) => {
      let value = route.cost;
      for (let one = 0; one < customers; one++) if ((route.customers >> one) & 1) value -= duals[one]!;
      return value;
    };
    const valued = routes.map((route) => ({ route, reduced: worth(route) })).sort((a, b) => a.reduced - b.reduced);
    const fresh = valued.filter(({ reduced }) => reduced < -1e-6).slice(0, 200);
    if (fresh.length === 0) {
      session.close();
      const exact = { maxNodes: 100_000, absoluteGap: 1e-6, relativeGap: 0 };
      const over = (list: readonly Route[]) => solver.solveMip({ rows: once, columns: packed(list, customers, 1) }, exact).objective;
      const upper = over(used);
      const needed = valued.filter(({ reduced }) => reduced <= upper - objective + 1e-6).map(({ route }) => route);
      return { relaxed: objective / 10, whole: over(needed) / 10 };
    }
    used.push(...fresh.map(({ route }) => route));
    session.addColumns(
      packed(
        fresh.map(({ route }) => route),
        customers,
        Infinity,
      ),
    );
  }
}
