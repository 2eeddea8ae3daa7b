// Shapes of rule packs and of office hours in the database; hours by ISO weekday, [opens, closes] in minutes of the local wall clock, or null = closed.
import { z } from 'zod';
import { CERTAINTIES, CLOCK_STARTS, TOPICS, type Certainty, type ClockStart, type RuleRow, type Topic } from '../shared/rulePack.ts';
import type { BusinessCalendar } from '../shared/calendar.ts';
import type { WeekHours } from './rules.ts';

const minute = z.int().min(0).max(1440);
const span = z.tuple([minute, minute]).nullable();

export const weekHoursSchema = z.strictObject({ 1: span, 2: span, 3: span, 4: span, 5: span, 6: span, 7: span });

/** Stored hours, checked. @throws ZodError when a row holds anything else: that is a mistake of the program, never of a person */
export const readWeekHours = (stored: unknown): WeekHours => weekHoursSchema.parse(stored);

/** The same hours as a business calendar has them. */
export function openingHours(stored: unknown): BusinessCalendar['hours'] {
  const hours = readWeekHours(stored);
  const of = (weekday: keyof WeekHours) => (hours[weekday] ? { start: hours[weekday][0], end: hours[weekday][1] } : null);
  return { 1: of('1'), 2: of('2'), 3: of('3'), 4: of('4'), 5: of('5'), 6: of('6'), 7: of('7') };
}

const keysOf = <K extends string>(words: Record<K, string>) => z.enum(Object.keys(words) as [K, ...K[]]);
const day = z.iso.date().nullable();
const years = z.number().min(0).max(50);
const from = keysOf<ClockStart>(CLOCK_STARTS);
const fields = z.array(z.string().min(1).max(40)).max(20);

const effect = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('standard'), name: z.string().min(1).max(200) }),
  z.strictObject({ kind: z.literal('written_first'), fields }),
  z.strictObject({ kind: z.literal('clause_needed'), clause: z.string().min(1).max(60) }),
  z.strictObject({ kind: z.literal('cap_barred') }),
  z.strictObject({ kind: z.literal('cap_floor'), cents: z.int().min(1).max(2_000_000_000) }),
  z.strictObject({ kind: z.literal('claim_time'), years, from }),
  z.strictObject({ kind: z.literal('shorter_time_barred') }),
  z.strictObject({ kind: z.literal('keep'), years, from }),
  z.strictObject({ kind: z.literal('no_paid_repairs'), months: z.int().min(1).max(600).nullable() }),
  z.strictObject({
    kind: z.literal('report_due'),
    days: z.int().min(0).max(365),
    unit: z.enum(['days', 'businessDays']),
    from: z.enum(['inspected', 'completed']),
    unlessAgreed: z.boolean(),
  }),
]);

export const ruleRowSchema = z.strictObject({
  key: z.string().regex(/^[a-z][a-z0-9-]{0,59}$/),
  topic: keysOf<Topic>(TOPICS),
  words: z.string().min(1).max(600),
  citation: z.string().min(1).max(200),
  certainty: keysOf<Certainty>(CERTAINTIES),
  effect: effect.nullable(),
  fromDay: day,
  untilDay: day,
});

const once = (rows: readonly { key: string }[]): boolean => new Set(rows.map(({ key }) => key)).size === rows.length;
const packBody = z.object({ name: z.string().min(1), rows: z.array(ruleRowSchema).max(200).refine(once, 'Two rows have the same key.') });

/** Packs of before rows were kept one by one: of those only the claim window counts. */
const earlierBody = z.object({
  name: z.string().optional(),
  claimWindow: z.object({ shortYears: years, longYears: years, from, sources: z.array(z.string()) }).optional(),
});

/** Name and rows of a stored pack. @throws ZodError when a row is of no known shape: that is a mistake of the program */
export function readPack(body: unknown): { name: string; rows: RuleRow[] } {
  if (typeof body === 'object' && body !== null && 'rows' in body) return packBody.parse(body);
  const { name = '', claimWindow } = earlierBody.parse(body);
  if (!claimWindow) return { name, rows: [] };
  const row = (key: string, of: number, citation: string): RuleRow => ({
    key,
    topic: 'claim',
    words: `${of} years.`,
    citation,
    certainty: 'second_hand',
    effect: { kind: 'claim_time', years: of, from: claimWindow.from },
    fromDay: null,
    untilDay: null,
  });
  const [short = 'not named', long = short] = claimWindow.sources;
  return { name, rows: [row('claim-short', claimWindow.shortYears, short), row('claim-long', claimWindow.longYears, long)] };
}
