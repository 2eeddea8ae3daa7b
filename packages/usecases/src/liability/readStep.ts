// One step: what it is like, how its text came to be, how often it applied and failed, and whether changes helped.
import { DateTime } from 'luxon';
import { incurred } from '@backsight/domain/callbacks/money';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { figures, stepFigures, type StepFigure } from '@backsight/store/liability/figures';
import { changesOfSteps, lineOf, stepLines, timesBefore, tracedToSteps, type TracedCallback } from '@backsight/store/liability/steps';
import { dayAt } from '../callbacks/steps/day.ts';
import { changeResult, countsOf } from './steps/changes.ts';
import { stepChart, type MonthTimes, type PlacedFailure } from './steps/stepChart.ts';
import { textHistory, type TextHistory } from './steps/textHistory.ts';
import { portrait, rateOf, shareOf } from './steps/words.ts';

type Held = 'met' | 'skipped' | 'couldNot' | 'differed';
/** What share of the judged times each of these is, with its interval. */
const sharesOf = <K extends Held>(names: readonly K[], rows: readonly StepFigure[], judged: number) =>
  Object.fromEntries(
    names.map((name) => [
      name,
      shareOf(
        sum(rows, (row) => row[name]),
        judged,
      ),
    ]),
  ) as Record<K, ReturnType<typeof shareOf>>;

/** `every`: all of its callbacks, however many. */
export type StepAsked = { key: string; now: Date; seeOwnerOnly: boolean; every?: boolean };

/** Refusal: not-found. Any key of the line of descent leads to the same page. */
export async function readStep(reader: Reader, { key, now, seeOwnerOnly, every = false }: StepAsked) {
  const line = await lineOf(reader, key);
  const [first] = line;
  const name = first && (await stepLines(reader)).find(({ root }) => root === first.root);
  if (!name) return refuse('not-found', { thing: 'step' });
  const keys = line.map((one) => one.key);
  const zone = (await findFirm(reader))?.zone ?? 'UTC';
  const rows = await stepFigures(reader, { stepKeys: [name.root] });
  const traced = await tracedToSteps(reader, keys);
  const counted = traced.filter(({ counts }) => counts);
  const text = await textHistory(reader, line, { now, seeOwnerOnly });
  const numbers = await numbersOf(reader, { rows, counted, waiting: traced.length - counted.length });
  const changes = (await changesOfSteps(reader, keys, now)).map((change) =>
    changeResult(change, { figures: rows, traced: counted, revisions: text.revisions, now }),
  );
  const months = monthsOf(rows, counted, { now, zone });
  return accept({
    stepKey: name.root,
    ...{ title: name.title, procedureId: name.procedureId, procedureTitle: name.procedureTitle, system: name.system },
    sentence: portrait(numbers),
    ...numbers,
    text: textJson(text),
    revisions: byRevision(text, rows, counted),
    months,
    chart: await chartOf(reader, { keys, months, counted, text, now, zone }),
    changes,
    ...callbacksJson(counted, { text, zone, seeOwnerOnly, most: every ? counted.length : NEWEST }),
  });
}

type Figures = { rows: readonly StepFigure[]; counted: readonly TracedCallback[]; waiting: number };
const sum = <T>(rows: readonly T[], of: (row: T) => number): number => rows.reduce((total, row) => total + of(row), 0);

async function numbersOf(reader: Reader, { rows, counted, waiting }: Figures) {
  const counts = countsOf(rows, counted);
  const judged = sum(rows, (row) => row.judged);
  const money = {
    paidCents: sum(counted, (row) => row.paidCents),
    reservedCents: sum(counted, (row) => row.reservedCents),
    recoveredCents: sum(counted, (row) => row.recoveredCents),
  };
  const all = await figures(reader, { grouping: 'all', measures: ['failures'] });
  return {
    ...counts,
    rate: rateOf(counts),
    ...money,
    incurredCents: incurred(money),
    allFailures: sum(all, ({ amount }) => amount),
    waiting,
    ...sharesOf(['met', 'skipped', 'couldNot', 'differed'], rows, judged),
  };
}

const textJson = ({ changes, unchanged, now }: TextHistory) => ({
  now,
  unchanged,
  changes: changes.map((change) => ({ ...change, inForceFrom: change.inForceFrom.toISOString() })),
});

/** Oldest first: what was worked by each revision, and what is traced to it. */
const byRevision = (text: TextHistory, rows: readonly StepFigure[], counted: readonly TracedCallback[]) =>
  text.revisions
    .map(({ id, number, procedureId, inForceFrom, holds }) => {
      const own = rows.filter((row) => row.revisionId === id);
      const counts = countsOf(
        own,
        counted.filter((row) => row.revisionId === id),
      );
      const judged = sum(own, (row) => row.judged);
      return {
        ...{ revisionId: id, number, procedureId, inForceFrom: inForceFrom.toISOString(), holds },
        ...counts,
        rate: rateOf(counts),
        ...sharesOf(['skipped', 'couldNot', 'differed'], own, judged),
      };
    })
    .filter(({ holds, times, failures, nearMisses }) => holds || times + failures + nearMisses > 0)
    .map(({ holds: _, ...row }) => row);

type Place = { now: Date; zone: string };
const monthAt = (at: Date, zone: string): string => DateTime.fromJSDate(at, { zone }).toFormat('yyyy-MM');

/** Every month from the first in which it applied until now. */
function monthsOf(rows: readonly StepFigure[], counted: readonly TracedCallback[], { now, zone }: Place) {
  const [first] = rows.map(({ month }) => month).sort();
  if (first === undefined) return [];
  const [from, until] = [
    DateTime.fromISO(`${first}-01`, { zone: 'utc' }),
    DateTime.fromISO(`${[monthAt(now, zone), ...rows.map(({ month }) => month)].sort().at(-1)}-01`, { zone: 'utc' }),
  ];
  return Array.from({ length: Math.round(until.diff(from, 'months').months) + 1 }, (_, at) => {
    const month = from.plus({ months: at }).toFormat('yyyy-MM');
    const own = rows.filter((row) => row.month === month);
    const { times, jobs, failures, nearMisses } = countsOf(
      own,
      counted.filter((row) => row.month === month),
    );
    const of = (what: 'judged' | 'skipped' | 'couldNot' | 'differed'): number => sum(own, (row) => row[what]);
    const revisions = own.map(({ revisionId, times: some }) => ({ revisionId, times: some }));
    return {
      ...{ month, times, jobs, failures, nearMisses, revisions },
      judged: of('judged'),
      skipped: of('skipped'),
      couldNot: of('couldNot'),
      differed: of('differed'),
    };
  });
}

type ChartFacts = Place & { keys: readonly string[]; months: readonly MonthTimes[]; counted: readonly TracedCallback[]; text: TextHistory };
/** Times in the months of failures up to which each is counted one by one. */
const MOST_COUNTED = 3000;

async function chartOf(reader: Reader, { keys, months, counted, text, now, zone }: ChartFacts) {
  const failures = counted
    .filter(({ kind }) => kind !== 'near_miss')
    .map(({ id, number, inspectedAt, month }) => ({ id, number, inspectedAt, month }));
  const touched = new Set(failures.map(({ month }) => month));
  const exact =
    sum(
      months.filter(({ month }) => touched.has(month)),
      ({ times }) => times,
    ) <= MOST_COUNTED;
  const bounds = new Map([...touched].map((month) => [month, boundsOf(month, zone)]));
  const starts = failures.map(({ id, inspectedAt, month }) => ({ id, at: inspectedAt, monthStart: bounds.get(month)!.starts }));
  const before = new Map(exact && failures.length > 0 ? (await timesBefore(reader, keys, starts)).map(({ id, times }) => [id, times]) : []);
  const placed = failures.map((failure): PlacedFailure => {
    const earlier = sum(
      months.filter(({ month }) => month < failure.month),
      ({ times }) => times,
    );
    const within = exact ? (before.get(failure.id) ?? 0) : spread(failure, months, bounds.get(failure.month)!);
    return { ...failure, place: earlier + within + 1 };
  });
  const changes = text.changes.slice(1).map(({ inForceFrom, number }) => ({ at: inForceFrom, label: `Revision ${number}` }));
  const chart = stepChart({ months, failures: placed, changes, now: monthAt(now, zone), zone, exact });
  return chart.ok ? chart : { ok: chart.ok, sentence: chart.sentence };
}

type Bounds = { starts: Date; ends: Date };
const boundsOf = (month: string, zone: string): Bounds => {
  const first = DateTime.fromISO(`${month}-01`, { zone });
  return { starts: first.toJSDate(), ends: first.plus({ months: 1 }).toJSDate() };
};

/** The part of the month's times before an instant, taken as evenly spread over the month. */
function spread(
  { month, inspectedAt }: { month: string; inspectedAt: Date },
  months: readonly MonthTimes[],
  { starts, ends }: Bounds,
): number {
  const share = (inspectedAt.getTime() - starts.getTime()) / (ends.getTime() - starts.getTime());
  return Math.round(share * (months.find((one) => one.month === month)?.times ?? 0));
}

const NEWEST = 50;

/** The newest callbacks and near-misses; those for the owner alone are counted and not named. */
function callbacksJson(
  counted: readonly TracedCallback[],
  { text, zone, seeOwnerOnly, most }: { text: TextHistory; zone: string; seeOwnerOnly: boolean; most: number },
) {
  const numbers = new Map(text.revisions.map(({ id, number }) => [id, number]));
  const named = counted.filter(({ ownerOnly }) => seeOwnerOnly || !ownerOnly).toReversed();
  const newest = (near: boolean) =>
    named
      .filter(({ kind }) => (kind === 'near_miss') === near)
      .slice(0, most)
      .map((row) => ({
        ...{ id: row.id, number: row.number, kind: row.kind, place: row.place, cause: row.cause },
        ...{ receivedOn: dayAt(row.receivedAt, zone), inspectedOn: dayAt(row.inspectedAt, zone) },
        revision: numbers.get(row.revisionId) ?? null,
        incurredCents: incurred(row),
      }));
  return {
    callbacks: newest(false),
    nearMissCallbacks: newest(true),
    unnamed: counted.length - named.length,
  };
}
