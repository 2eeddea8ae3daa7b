// Outlooks: what a change still to come would mean for the next two years. Planning estimates, for the owner.
import { z } from 'zod';
import { cents, day, id, idParams, instant, line, made, route } from '../route.ts';
import { tableOf, withTables, type TableCell, type TableHead } from '../table.ts';

const OWNER = ['owner'] as const;
/** Whole or with one decimal, as typed into an address. */
const percent = (least: number, most: number) => z.coerce.number().min(least).max(most).default(0);
const amount = z.coerce.number().int().min(0).max(2_000_000_000).nullable().default(null);

/** Percent are of what is now; what is left out stays as it is. Cents and minutes are whole. */
const scenarioFields = {
  feePercent: percent(-90, 200),
  jobsPercent: percent(-90, 200),
  capCents: amount,
  deductibleCents: amount,
  premiumCents: z.coerce.number().int().min(-2_000_000_000).max(2_000_000_000).default(0),
  stepKey: line(80).nullable().default(null),
  stepMinutes: z.coerce.number().min(-120).max(240).default(0),
  fewerLeast: percent(-100, 100),
  fewerMost: percent(-100, 100),
};
const scenario = z.strictObject({
  feePercent: z.number(),
  jobsPercent: z.number(),
  capCents: cents.nullable(),
  deductibleCents: cents.nullable(),
  premiumCents: cents,
  stepKey: z.string().nullable(),
  stepMinutes: z.number(),
  fewerLeast: z.number(),
  fewerMost: z.number(),
});
export type Scenario = z.output<typeof scenario>;

const seed = z.coerce.number().int().min(0).max(4_294_967_295);
const spread = z.strictObject({ mean: z.number(), lower: z.number(), upper: z.number() });
const measure = z.enum(['jobs', 'income', 'callbacks', 'cost', 'byFirm', 'byInsurer', 'left', 'hours']);
const result = {
  runs: z.int(),
  from: day,
  until: day,
  stepTitle: z.string().nullable(),
  figures: z.array(z.strictObject({ measure, now: spread, changed: spread, difference: spread })),
  because: z.array(z.string()),
  assumptions: z.array(z.string()),
  cautions: z.array(z.string()),
};
const outlook = z.strictObject({
  scenario,
  seed: z.int(),
  asOf: instant,
  ...result,
  policy: z.strictObject({ number: z.string(), deductibleCents: cents }).nullable(),
  quarters: z.array(
    z.strictObject({
      name: z.string(),
      weeks: z.int(),
      jobs: z.int(),
      hoursNow: z.number(),
      hoursChanged: z.number(),
      hoursOfDuty: z.number(),
    }),
  ),
  steps: z.array(z.strictObject({ key: z.string(), title: z.string(), traced: z.int() })),
});
export type Outlook = z.output<typeof outlook>;
export type OutlookFigure = Outlook['figures'][number];

const kept = z.strictObject({
  id,
  name: z.string(),
  scenario,
  seed: z.int(),
  asOf: instant,
  result: z.strictObject(result),
  madeAt: instant,
  madeBy: z.string(),
});
export type KeptOutlook = z.output<typeof kept>;

export const outlookRoutes = {
  read: route({
    method: 'GET',
    path: '/api/liability/outlook',
    area: 'liability',
    summary: 'What a change would mean for the next two years, by seeded simulation; the same seed and instant give the same again',
    who: OWNER,
    query: z.strictObject({ ...scenarioFields, seed: seed.default(1), asOf: instant.optional() }),
    reply: outlook,
  }),
  kept: route({
    method: 'GET',
    path: '/api/liability/outlooks',
    area: 'liability',
    summary: 'Outlooks that an owner chose to keep',
    who: OWNER,
    reply: z.strictObject({ items: z.array(kept) }),
  }),
  keep: route({
    method: 'POST',
    path: '/api/liability/outlooks',
    area: 'liability',
    summary: 'Keep an outlook under a name, figured anew from its seed and instant',
    who: OWNER,
    creates: true,
    body: z.strictObject({ id, name: line(80), ...scenarioFields, seed, asOf: instant }),
    reply: made,
  }),
  remove: route({
    method: 'DELETE',
    path: '/api/liability/outlooks/:id',
    area: 'liability',
    summary: 'Remove a kept outlook',
    who: OWNER,
    params: idParams,
    reply: made,
  }),
};

/** What is counted: money in cents, else jobs, callbacks or hours. */
export const OUTLOOK_MEASURES: Record<OutlookFigure['measure'], { name: string; unit: 'dollars' | 'jobs' | 'callbacks' | 'hours' }> = {
  jobs: { name: 'Jobs', unit: 'jobs' },
  income: { name: 'Fees', unit: 'dollars' },
  callbacks: { name: 'Callbacks that these jobs will ever bring', unit: 'callbacks' },
  cost: { name: 'Cost of these callbacks', unit: 'dollars' },
  byFirm: { name: 'Paid by the firm', unit: 'dollars' },
  byInsurer: { name: 'Paid by the insurer', unit: 'dollars' },
  left: { name: 'Fees less what the firm pays and insurance costs more', unit: 'dollars' },
  hours: { name: 'Hours of pairs on visits', unit: 'hours' },
};
type FigureColumn = TableHead & { of: (row: OutlookFigure) => TableCell };
const SIDES = { now: 'as things are', changed: 'after the change', difference: 'what the change does' } as const;
const figureColumns: FigureColumn[] = [
  { head: 'in these two years', of: ({ measure: of }) => OUTLOOK_MEASURES[of].name },
  { head: 'unit', of: ({ measure: of }) => OUTLOOK_MEASURES[of].unit },
  ...(['now', 'changed', 'difference'] as const).flatMap((side) =>
    (['mean', 'lower', 'upper'] as const).map((end): FigureColumn => ({
      head: `${SIDES[side]}: ${{ mean: 'mean', lower: '90 of 100 runs from', upper: '90 of 100 runs to' }[end]}`,
      is: 'number',
      of: (row) => Math.round(row[side][end] * (OUTLOOK_MEASURES[row.measure].unit === 'dollars' ? 1 : 100)) / 100,
    })),
  ),
];
type Kept = { items: readonly KeptOutlook[] };
type KeptRow = OutlookFigure & { kept: KeptOutlook };

export const outlookTables = {
  read: withTables(outlookRoutes.read, {
    figures: tableOf('Planning estimate for two years', ({ figures }: Outlook) => figures, figureColumns),
    quarters: tableOf('Hours of pairs by quarter', ({ quarters }: Outlook) => quarters, [
      { head: 'quarter', of: (row) => row.name },
      { head: 'weeks', is: 'number', of: (row) => row.weeks },
      { head: 'jobs a year before', is: 'number', of: (row) => row.jobs },
      { head: 'hours of pairs', is: 'number', of: (row) => row.hoursNow },
      { head: 'hours of pairs after the change', is: 'number', of: (row) => row.hoursChanged },
      { head: 'hours of duty of pairs', is: 'number', of: (row) => row.hoursOfDuty },
    ]),
  }),
  kept: withTables(outlookRoutes.kept, {
    kept: tableOf<Kept, KeptRow>(
      'Kept planning estimates',
      ({ items }) => items.flatMap((one) => one.result.figures.map((figure) => ({ ...figure, kept: one }))),
      [
        { head: 'name', of: (row) => row.kept.name },
        { head: 'made', is: 'instant', of: (row) => row.kept.madeAt },
        { head: 'by', of: (row) => row.kept.madeBy },
        { head: 'seed', is: 'number', of: (row) => row.kept.seed },
        { head: 'as known', is: 'instant', of: (row) => row.kept.asOf },
        ...figureColumns,
      ],
    ),
  }),
};
