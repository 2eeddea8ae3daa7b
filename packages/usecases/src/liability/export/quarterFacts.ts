// What the quarterly report is made of.
import { DateTime } from 'luxon';
import { changedActions } from '@backsight/store/callbacks/actions';
import { figures } from '@backsight/store/liability/figures';
import { moneyWithin } from '@backsight/store/liability/money';
import { actionsIn, decisionsIn, openAtEnd, receivedIn } from '@backsight/store/liability/quarter';
import { stepLines } from '@backsight/store/liability/steps';
import type { Reader } from '@backsight/store/database';
import { readDevelopment } from '../development/readDevelopment.ts';
import { windowsOn } from '../owner/readWindows.ts';
import { effectOf } from '../../callbacks/steps/effectOf.ts';

/** ISO days of a quarter (YYYY-Qn), both included, and of the same quarter a year before. */
export function quarterSpan(quarter: string) {
  const start = DateTime.utc(Number(quarter.slice(0, 4)), (Number(quarter.slice(6)) - 1) * 3 + 1, 1);
  const span = (from: DateTime) => ({ from: from.toISODate()!, to: from.plus({ months: 3 }).minus({ days: 1 }).toISODate()! });
  return { now: span(start), before: span(start.minus({ years: 1 })) };
}

export type QuarterFacts = Awaited<ReturnType<typeof quarterFacts>>;

type Asked = { quarter: string; today: string; now: Date; zone: string };

export async function quarterFacts(reader: Reader, { quarter, today, now, zone }: Asked) {
  const spans = quarterSpan(quarter);
  const until = spans.now.to < today ? spans.now.to : today;
  const [money, moneyBefore, ever] = await moneyWithin(reader, [spans.now, spans.before, { from: null, to: until }], true);
  const asked = { now, by: 'quarter', method: 'each', asOf: until, seeOwnerOnly: true } as const;
  const developed = {
    callbacks: await readDevelopment(reader, { ...asked, of: 'callbacks' }),
    incurred: await readDevelopment(reader, { ...asked, of: 'incurred' }),
  };
  return {
    quarter,
    until,
    running: spans.now.to >= today,
    money: money!,
    moneyBefore: moneyBefore!,
    ever: ever!,
    received: await receivedIn(reader, spans.now),
    receivedBefore: await receivedIn(reader, spans.before),
    ...(await openAtEnd(reader, spans.now)),
    decisions: await decisionsIn(reader, spans.now),
    callbacks: developed.callbacks.ok ? developed.callbacks.value : null,
    incurred: developed.incurred.ok ? developed.incurred.value : null,
    steps: await stepsOf(reader, spans.now),
    actions: await actionsIn(reader, spans.now),
    effects: await effectsBy(
      reader,
      DateTime.min(DateTime.fromISO(until, { zone }).endOf('day'), DateTime.fromJSDate(now, { zone })).toJSDate(),
    ),
    windows: await windowsOn(reader, until),
  };
}

/** Changes whose effect is told, the newest first. */
const MOST_CHANGES = 5;

/** The effect of the newest changes as the pages of their actions tell it, from the jobs until an instant. */
async function effectsBy(reader: Reader, by: Date) {
  const effects = [];
  for (const action of await changedActions(reader, by, MOST_CHANGES))
    effects.push({ action, ...(await effectOf(reader, action, { now: by, days: null })) });
  return effects;
}

/** Steps that callbacks were traced to in the quarter, less what was taken back in it, most first. */
async function stepsOf(reader: Reader, { from, to }: { from: string; to: string }) {
  const lines = new Map((await stepLines(reader)).map(({ root, title }) => [root, title]));
  const sums = new Map<string, number>();
  for (const { value, known, amount } of await figures(reader, { grouping: 'step', measures: ['failures'] }))
    if (known >= from.slice(0, 7) && known <= to.slice(0, 7)) sums.set(value, (sums.get(value) ?? 0) + amount);
  return [...sums]
    .filter(([, traced]) => traced > 0)
    .map(([key, traced]) => ({ title: lines.get(key) ?? key, traced }))
    .toSorted((a, b) => b.traced - a.traced || a.title.localeCompare(b.title));
}
