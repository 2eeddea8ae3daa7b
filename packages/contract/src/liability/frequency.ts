// How often callbacks come, by month and by group: for owner and lead inspector alone.
import { z } from 'zod';
import { ALPHA, COMPARED, GROUP_WORDS, pText } from '@backsight/domain/liability/frequency/groups';
import { monthName } from '@backsight/domain/liability/frequency/months';
import { route } from '../route.ts';

export { ALPHA, COMPARED, GROUP_WORDS, monthName, pText };
export const JUDGES = ['owner', 'lead_inspector'] as const;

const month = z.string().regex(/^20\d\d-(0[1-9]|1[0-2])$/, 'Give a month of this century as YYYY-MM.');
const monthNumber = (of: string): number => Number(of.slice(0, 4)) * 12 + Number(of.slice(5, 7));
/** Months of inspection, both included; a last month that lies ahead is this month. */
export const monthSpan = { from: month.optional(), until: month.optional() };
type SpanGiven = { from?: string | undefined; until?: string | undefined };
const MOST_MONTHS = 240;
export const inOrder = ({ from, until }: SpanGiven): boolean => from === undefined || until === undefined || from <= until;
export const ORDER_MESSAGE = { message: 'The first month must not come after the last.', path: ['until'] };
export const shortEnough = ({ from, until }: SpanGiven): boolean =>
  from === undefined || until === undefined || monthNumber(until) - monthNumber(from) < MOST_MONTHS;
export const LENGTH_MESSAGE = { message: 'Ask for at most 20 years at once.', path: ['from'] };

/** Why there is no figure, in a sentence. */
export const cannot = z.strictObject({ ok: z.literal(false), code: z.string(), sentence: z.string() });

const sums = { jobs: z.int(), callbacks: z.int(), incurredCents: z.int() };
const monthFigures = z.strictObject({
  month: z.string(),
  ...sums,
  state: z.enum(['running', 'young', 'settled']),
  share: z.number().nullable(),
  earlier: z.strictObject({ month: z.string(), ...sums, callbacksAtSameAge: z.int() }).nullable(),
});
export type MonthFigures = z.output<typeof monthFigures>;

const signal = z.strictObject({
  rule: z.enum(['beyond_limits', 'run', 'sum_beyond_limit']),
  side: z.enum(['above', 'below']),
  sentence: z.string(),
});
const point = z.strictObject({
  label: z.string(),
  value: z.number().nullable(),
  center: z.number(),
  lower: z.number().nullable(),
  upper: z.number().nullable(),
  young: z.boolean(),
  signals: z.array(signal),
});
const chart = z.strictObject({
  ok: z.literal(true),
  kind: z.enum(['u', 'g']),
  sentence: z.string(),
  goodSide: z.enum(['above', 'below']),
  points: z.array(point),
});
export type MonthChart = z.output<typeof chart>;

const number = z.number().nullable();
const groupRow = z.strictObject({
  value: z.string(),
  name: z.string(),
  count: z.int(),
  exposure: z.int(),
  incurredCents: z.int(),
  rate: number,
  lower: number,
  upper: number,
  shrunk: number,
  others: number,
  ratio: number,
  p: number,
  adjusted: number,
  signal: z.enum(['more', 'fewer']).nullable(),
  sentence: z.string(),
});
export type GroupRow = z.output<typeof groupRow>;
const groupTable = z.strictObject({ by: z.enum(COMPARED), shrinkage: z.string(), rows: z.array(groupRow) });
export type GroupTable = z.output<typeof groupTable>;

const frequency = z.strictObject({
  from: z.string(),
  until: z.string(),
  young: z.string(),
  months: z.array(monthFigures),
  chart: z.union([chart, cannot]),
  compared: z.string(),
  comparisons: z.int(),
  hiddenPairs: z.array(z.string()),
  /** What differs by more than chance explains, of every kind of group. */
  signals: z.array(z.strictObject({ by: z.enum(COMPARED), value: z.string(), sentence: z.string() })),
  groups: z.array(groupTable),
});
export type Frequency = z.output<typeof frequency>;

export const frequencyRoutes = {
  page: route({
    method: 'GET',
    path: '/api/liability/frequency',
    area: 'liability',
    summary: 'Callbacks per 100 jobs by month with its control chart, and by group with exact intervals, corrected for many comparisons',
    who: JUDGES,
    query: z
      .strictObject({ ...monthSpan, by: z.enum(['month', ...COMPARED]).optional() })
      .refine(inOrder, ORDER_MESSAGE)
      .refine(shortEnough, LENGTH_MESSAGE),
    reply: frequency,
  }),
};
