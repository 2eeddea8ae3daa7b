// How often callbacks come: by month with its control chart, and by step, system, house, service, season, rain and pair.
import { SYSTEMS } from '@backsight/domain/callbacks/intakeWords';
import { COMPARED, groupName, seasonOf, type ComparedBy } from '@backsight/domain/liability/frequency/groups';
import { sumOf, type Sums } from '@backsight/domain/liability/frequency/months';
import { LEAST_EXPECTED } from '@backsight/domain/liability/people/expected';
import { namesOfGroups, placedCallbacks, timesByLine, type Named } from '@backsight/store/liability/frequency';
import { sumsByValue, type Span, type ValueSum } from '@backsight/store/liability/spans';
import { stepLines } from '@backsight/store/liability/steps';
import type { Reader } from '@backsight/store/database';
import { pairName, readMix } from '../people/mix.ts';
import { groupTables, signalsOf, type Group } from './groupRates.ts';
import { monthChart } from './monthChart.ts';
import { readSpan, type ReadSpan, type SpanAsked } from './span.ts';

/** Everything on one page, or of the groups only one kind (by month: none): corrections and signals are of all of them either way. */
export async function readFrequency(reader: Reader, { by, ...asked }: SpanAsked & { by?: ComparedBy | 'month' | undefined }) {
  const span = await readSpan(reader, asked);
  const chart = await monthChart(span.months, () => placedCallbacks(reader, span));
  const { groups, ...compared } = await compare(reader, span);
  const shown = by === undefined ? groups : groups.filter((table) => table.by === by);
  return { from: span.from, until: span.until, young: span.young, months: span.months, chart, ...compared, groups: shown };
}

async function compare(reader: Reader, span: ReadSpan) {
  if (!span.compared)
    return {
      compared: 'Cannot be estimated because nothing was inspected in these months.',
      comparisons: 0,
      hiddenPairs: [],
      signals: [],
      groups: [],
    };
  const found = await groupsOf(reader, span, span.compared);
  const { comparisons, tables } = groupTables(found.all);
  return { compared: span.compared.sentence, comparisons, hiddenPairs: found.hiddenPairs, signals: signalsOf(tables), groups: tables };
}

const MONEY = ['paid', 'reserved', 'recovered'] as const;
const KEPT = ['system', 'foundation', 'age', 'service', 'rain', 'pair', 'step'] as const;

type Names = { services: Map<string, string>; people: Map<string, string>; steps: Map<string, string> };
const mapOf = (named: readonly Named[], kind: Named['kind']): Map<string, string> =>
  new Map(named.flatMap((one) => (one.kind === kind ? [[one.key, one.name]] : [])));

async function groupsOf(reader: Reader, span: ReadSpan, months: Span & { jobs: number; callbacks: number }) {
  const sums = await sumsByValue(reader, { ...months, groupings: KEPT, measures: ['jobs', 'callbacks', 'failures', ...MONEY] });
  const named = await namesOfGroups(reader);
  const names: Names = {
    services: mapOf(named, 'service'),
    people: mapOf(named, 'person'),
    steps: new Map((await stepLines(reader)).map(({ root, title }) => [root, title])),
  };
  const times = new Map((await timesByLine(reader, months)).map((row) => [row.root, row.times]));
  const counted = span.months.filter(({ month }) => month >= months.from && month <= months.until);
  const { pairs } = await readMix(reader, months);
  const shown = new Set(pairs.filter(({ expected }) => expected >= LEAST_EXPECTED).map(({ unit }) => unit));
  const whole: Sums = { jobs: months.jobs, callbacks: months.callbacks, incurredCents: 0 };
  const valued = (by: ComparedBy) => byValue(sums.filter(({ grouping }) => grouping === by));
  const made: Record<ComparedBy, Group[]> = {
    step: stepGroups(valued('step'), times, names.steps),
    system: systemGroups(valued('system'), whole),
    foundation: jobGroups('foundation', valued('foundation'), whole, new Map()),
    age: jobGroups('age', valued('age'), whole, new Map()),
    service: jobGroups('service', valued('service'), whole, names.services),
    season: jobGroups('season', seasons(counted), whole, new Map()),
    rain: jobGroups('rain', valued('rain'), whole, new Map()),
    pair: jobGroups('pair', valued('pair'), whole, new Map(pairs.map(({ unit }) => [unit, pairName(unit, names.people)]))).filter(
      ({ value }) => shown.has(value),
    ),
  };
  return {
    all: COMPARED.map((by) => ({ by, groups: made[by] })),
    hiddenPairs: pairs
      .filter(({ unit }) => !shown.has(unit))
      .map(({ unit }) => pairName(unit, names.people))
      .sort((a, b) => a.localeCompare(b, 'en-US')),
  };
}

type Valued = Map<string, Sums & { failures: number }>;

function byValue(sums: readonly ValueSum[]): Valued {
  const rows = new Map<string, ValueSum[]>();
  for (const sum of sums) rows.set(sum.value, [...(rows.get(sum.value) ?? []), sum]);
  return new Map(
    [...rows].map(([value, mine]) => [
      value,
      { ...sumOf(mine), failures: mine.find(({ measure }) => measure === 'failures')?.amount ?? 0 },
    ]),
  );
}

function seasons(months: ReadSpan['months']): Valued {
  const found: Valued = new Map();
  for (const { month, jobs, callbacks, incurredCents } of months) {
    const key = seasonOf(month);
    const sum = found.get(key) ?? { jobs: 0, callbacks: 0, incurredCents: 0, failures: 0 };
    found.set(key, {
      jobs: sum.jobs + jobs,
      callbacks: sum.callbacks + callbacks,
      incurredCents: sum.incurredCents + incurredCents,
      failures: 0,
    });
  }
  return found;
}

/** Held against all other jobs. */
const jobGroups = (by: ComparedBy, sums: Valued, whole: Sums, named: ReadonlyMap<string, string>): Group[] =>
  [...sums].map(([value, { jobs, callbacks, incurredCents }]) => ({
    value,
    name: groupName(by, value, named),
    count: Math.max(0, callbacks),
    exposure: jobs,
    incurredCents,
    rest:
      jobs > 0 && whole.jobs > jobs ? { count: Math.max(0, whole.callbacks - Math.max(0, callbacks)), exposure: whole.jobs - jobs } : null,
  }));

/** Every job has every system, so one is held against the average of the others. */
function systemGroups(sums: Valued, whole: Sums): Group[] {
  const counts = Object.keys(SYSTEMS).map((value) => ({ value, ...(sums.get(value) ?? { callbacks: 0, incurredCents: 0 }) }));
  const all = counts.reduce((sum, { callbacks }) => sum + Math.max(0, callbacks), 0);
  return counts.map(({ value, callbacks, incurredCents }) => ({
    value,
    name: groupName('system', value, new Map(Object.entries(SYSTEMS))),
    count: Math.max(0, callbacks),
    exposure: whole.jobs,
    incurredCents,
    rest: { count: all - Math.max(0, callbacks), exposure: whole.jobs * (counts.length - 1) },
  }));
}

/** Failures over the times that the step applied, held against all other steps. */
function stepGroups(sums: Valued, times: ReadonlyMap<string, number>, titles: ReadonlyMap<string, string>): Group[] {
  const rows = [...times].map(([value, exposure]) => ({
    value,
    exposure,
    count: Math.max(0, sums.get(value)?.failures ?? 0),
    incurredCents: sums.get(value)?.incurredCents ?? 0,
  }));
  const all = rows.reduce((sum, { count, exposure }) => ({ count: sum.count + count, exposure: sum.exposure + exposure }), {
    count: 0,
    exposure: 0,
  });
  return rows.map((row) => ({
    ...row,
    name: groupName('step', row.value, titles),
    rest: rows.length > 1 ? { count: all.count - row.count, exposure: all.exposure - row.exposure } : null,
  }));
}
