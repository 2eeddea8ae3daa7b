// Claim windows that are still open, and the inspections behind them: for owner and lead inspector alone.
import { z } from 'zod';
import { day, id, route } from '../route.ts';
import { tableOf, withTables } from '../table.ts';

const JUDGES = ['owner', 'lead_inspector'] as const;
const monthOf = z.string().regex(/^\d{4}-(?:0[1-9]|1[0-2])$/, 'must be a month like 2026-05');
const days = { from: day.optional(), to: day.optional() };

const exposure = { jobs: z.int(), shortJobs: z.int(), capCents: z.int(), noCap: z.int(), unsigned: z.int(), capBarred: z.int() };
const closes = z.strictObject({ jobs: z.int(), capCents: z.int() });
const month = z.strictObject({ month: z.string(), ...exposure, held: z.int(), openCallbacks: z.int() });
export type WindowMonth = z.output<typeof month>;

const windows = z.strictObject({
  today: day,
  total: z.strictObject({ ...exposure, held: z.int(), openCallbacks: z.int() }),
  months: z.array(month),
  closing: z.array(z.strictObject({ month: z.string(), short: closes, long: closes })),
  /** Last day on which any window is open, by each reading. */
  last: z.strictObject({ short: day.nullable(), long: day.nullable() }),
  withoutRule: z.int(),
  /** Inspections said to take place on a day that is still to come. */
  future: z.int(),
  /** The readings of the states of these jobs, in words, with their sources. */
  readings: z.array(z.strictObject({ state: z.string(), words: z.string(), source: z.string(), certainty: z.string() })),
});
export type Windows = z.output<typeof windows>;

const job = z.strictObject({
  jobId: id,
  jobNumber: z.int(),
  address: z.string(),
  town: z.string(),
  inspectedOn: day,
  completedOn: day.nullable(),
  deliveredOn: day.nullable(),
  signed: z.boolean(),
  capCents: z.int().nullable(),
  capBarred: z.boolean(),
  /** Last day on which a claim may be brought by the shortest and the longest reading; null: no rule was read. */
  shortUntil: day.nullable(),
  longUntil: day.nullable(),
  held: z.boolean(),
  openCallbacks: z.array(z.int()),
});
export type WindowJobRow = z.output<typeof job>;

export const WINDOW_PARTS = {
  all: 'whether the window is open or not',
  no_cap: 'without a limit in the agreement',
  unsigned: 'without a signed agreement',
  cap: 'with a limit in the agreement',
  held: 'held as evidence',
  called: 'with an open callback',
  short: 'open by the shortest reading too',
} as const;
export type WindowPart = keyof typeof WINDOW_PARTS;

export const windowRoutes = {
  page: route({
    method: 'GET',
    path: '/api/liability/windows',
    area: 'liability',
    summary: 'Claim windows still open by month of inspection, with caps, and what closes when; no legal advice',
    who: JUDGES,
    reply: windows,
  }),
  jobs: route({
    method: 'GET',
    path: '/api/liability/windows/jobs',
    area: 'liability',
    summary: 'Inspections whose claim window is open: of one month, or that close in one month by one reading',
    who: JUDGES,
    query: z.strictObject({
      inspected: monthOf.optional(),
      closes: monthOf.optional(),
      by: z.enum(['short', 'long']).optional(),
      only: z.enum(Object.keys(WINDOW_PARTS) as [WindowPart, ...WindowPart[]]).optional(),
      page: z.coerce.number().int().min(1).max(1000).optional(),
    }),
    reply: z.strictObject({ total: z.int(), capCents: z.int(), items: z.array(job), next: z.int().nullable() }),
  }),
  unsignedStarts: route({
    method: 'GET',
    path: '/api/liability/unsigned-starts',
    area: 'liability',
    summary: 'Inspections that began before every needed signature was there; newest first, at most 200',
    who: JUDGES,
    query: z.strictObject(days),
    reply: z.strictObject({ items: z.array(job) }),
  }),
};

const windowJobs = ({ items }: { items: readonly WindowJobRow[] }) => items;
const jobColumns = [
  { head: 'job', is: 'number', of: (row: WindowJobRow) => row.jobNumber },
  { head: 'address', of: (row: WindowJobRow) => row.address },
  { head: 'town', of: (row: WindowJobRow) => row.town },
  { head: 'inspected on', is: 'day', of: (row: WindowJobRow) => row.inspectedOn },
  { head: 'report handed over on', is: 'day', of: (row: WindowJobRow) => row.deliveredOn },
  { head: 'claims until', is: 'day', of: (row: WindowJobRow) => row.shortUntil },
  { head: 'claims until, at the longest', is: 'day', of: (row: WindowJobRow) => row.longUntil },
  { head: 'agreement signed', of: (row: WindowJobRow) => (row.signed ? 'yes' : 'no') },
  { head: 'limit agreed', is: 'cents', of: (row: WindowJobRow) => row.capCents },
  { head: 'limit barred by the state', of: (row: WindowJobRow) => (row.capBarred ? 'yes' : 'no') },
  { head: 'held', of: (row: WindowJobRow) => (row.held ? 'yes' : 'no') },
  { head: 'open callbacks', of: (row: WindowJobRow) => row.openCallbacks.join(', ') },
] as const;
const byReading = (by: 'short' | 'long') =>
  [
    { head: `jobs by the ${by}est reading`, is: 'number', of: (row: Windows['closing'][number]) => row[by].jobs },
    { head: `limits agreed by the ${by}est reading`, is: 'cents', of: (row: Windows['closing'][number]) => row[by].capCents },
  ] as const;

export const windowTables = {
  page: withTables(windowRoutes.page, {
    closing: tableOf('Claim windows that close in the next twelve months', ({ closing }: Windows) => closing, [
      { head: 'closes in', of: (row) => row.month },
      ...byReading('short'),
      ...byReading('long'),
    ]),
    months: tableOf('Open claim windows by month of inspection', ({ months }: Windows) => months, [
      { head: 'inspected in', of: (row) => row.month },
      { head: 'shortest reading', is: 'number', unit: 'jobs', of: (row) => row.shortJobs },
      { head: 'longest reading', is: 'number', unit: 'jobs', of: (row) => row.jobs },
      { head: 'limits agreed', is: 'cents', of: (row) => row.capCents },
      { head: 'no limit', is: 'number', unit: 'jobs', of: (row) => row.noCap },
      { head: 'not signed', is: 'number', unit: 'jobs', of: (row) => row.unsigned },
      { head: 'held', is: 'number', unit: 'jobs', of: (row) => row.held },
      { head: 'callbacks open', is: 'number', of: (row) => row.openCallbacks },
    ]),
  }),
  jobs: withTables(windowRoutes.jobs, { jobs: tableOf('Inspections behind claim windows', windowJobs, jobColumns) }),
  unsignedStarts: withTables(windowRoutes.unsignedStarts, {
    jobs: tableOf('Inspections unsigned at the start', windowJobs, jobColumns),
  }),
};
