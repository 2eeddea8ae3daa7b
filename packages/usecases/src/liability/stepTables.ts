// Tables of the steps as comma-separated text (RFC 4180); amounts in dollars, shares between 0 and 1.
import { CAUSES, KINDS } from '@backsight/domain/callbacks/words';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { csvText, type Cell } from '@backsight/documents/csv';
import type { Reader } from '@backsight/store/database';
import { readStep, type StepAsked } from './readStep.ts';
import { readSteps, type StepsAsked } from './readSteps.ts';

type Column<T> = readonly [head: string, cell: (row: T) => Cell];
const table = <T>(columns: readonly Column<T>[], rows: readonly T[]): string =>
  csvText([columns.map(([head]) => head), ...rows.map((row) => columns.map(([, cell]) => cell(row)))]);
const dollars = (cents: number): Cell => (cents / 100).toFixed(2);

type Limits = { rate: number; lower: number; upper: number } | null;
type Share = { count: number; total: number; lower: number; upper: number } | null;
const rates = <T extends { rate: Limits }>(): Column<T>[] => [
  ['failures per time', ({ rate }) => rate?.rate ?? null],
  ['lower limit (95 %)', ({ rate }) => rate?.lower ?? null],
  ['upper limit (95 %)', ({ rate }) => rate?.upper ?? null],
];
type Shares = { skipped: Share; couldNot: Share; differed: Share };
const shares = <T extends Shares>(): Column<T>[] => [
  ['times on sealed records', (row) => row.skipped?.total ?? 0],
  ...(['skipped', 'couldNot', 'differed'] as const).flatMap((of): Column<T>[] => {
    const name = { skipped: 'skipped', couldNot: 'could not be inspected', differed: 'partners recorded different results' }[of];
    return [
      [name, (row) => row[of]?.count ?? 0],
      [`${name}: share from (95 %)`, (row) => row[of]?.lower ?? null],
      [`${name}: share to (95 %)`, (row) => row[of]?.upper ?? null],
    ];
  }),
];

export async function stepsTable(reader: Reader, asked: StepsAsked): Promise<string> {
  type Row = Awaited<ReturnType<typeof readSteps>>['steps'][number];
  const columns: Column<Row>[] = [
    ['step', ({ title }) => title],
    ['step key', ({ stepKey }) => stepKey],
    ['procedure', ({ procedureTitle }) => procedureTitle],
    ['system', ({ system }) => system],
    ['times applied', ({ times }) => times],
    ['jobs', ({ jobs }) => jobs],
    ['failures', ({ failures }) => failures],
    ['near-misses', ({ nearMisses }) => nearMisses],
    ...rates<Row>(),
    ['paid', ({ paidCents }) => dollars(paidCents)],
    ['set aside', ({ reservedCents }) => dollars(reservedCents)],
    ['recovered', ({ recoveredCents }) => dollars(recoveredCents)],
    ['incurred', ({ incurredCents }) => dollars(incurredCents)],
    ...shares<Row>(),
  ];
  return table(columns, (await readSteps(reader, asked)).steps);
}

export type StepTable = 'months' | 'revisions' | 'chart' | 'callbacks';

/** One table of the page of a step. Refusal: not-found. */
export async function stepTable(reader: Reader, { of, ...asked }: StepAsked & { of: StepTable }): Promise<Outcome<string>> {
  const found = await readStep(reader, asked);
  if (!found.ok) return found;
  const step = found.value;
  type Step = typeof step;
  const text: Record<StepTable, () => string> = {
    months: () =>
      table<Step['months'][number]>(
        [
          ['month', ({ month }) => month],
          ['times applied', ({ times }) => times],
          ['jobs', ({ jobs }) => jobs],
          ['failures', ({ failures }) => failures],
          ['near-misses', ({ nearMisses }) => nearMisses],
          ['times on sealed records', ({ judged }) => judged],
          ['skipped', ({ skipped }) => skipped],
          ['could not be inspected', ({ couldNot }) => couldNot],
          ['partners recorded different results', ({ differed }) => differed],
        ],
        step.months,
      ),
    revisions: () => revisionsTable(step.revisions),
    chart: () => (step.chart.ok ? chartTable(step.chart.points) : csvText([['no chart'], [step.chart.sentence]])),
    callbacks: () =>
      table<Step['callbacks'][number]>(
        [
          ['callback', ({ number }) => number],
          ['kind', ({ kind }) => KINDS[kind]],
          ['received on', ({ receivedOn }) => receivedOn],
          ['inspected on', ({ inspectedOn }) => inspectedOn],
          ['place', ({ place }) => place],
          ['cause', ({ cause }) => CAUSES[cause as keyof typeof CAUSES] ?? cause],
          ['revision', ({ revision }) => revision],
          ['incurred', ({ incurredCents }) => dollars(incurredCents)],
        ],
        [...step.callbacks, ...step.nearMissCallbacks],
      ),
  };
  return accept(text[of]());
}

type Revision = {
  number: number;
  inForceFrom: string;
  times: number;
  jobs: number;
  failures: number;
  nearMisses: number;
  rate: Limits;
} & Shares;
const revisionsTable = (rows: readonly Revision[]): string =>
  table<Revision>(
    [
      ['revision', ({ number }) => number],
      ['in force from', ({ inForceFrom }) => inForceFrom],
      ['times applied', ({ times }) => times],
      ['jobs', ({ jobs }) => jobs],
      ['failures', ({ failures }) => failures],
      ['near-misses', ({ nearMisses }) => nearMisses],
      ...rates<Revision>(),
      ...shares<Revision>(),
    ],
    rows,
  );

type Point = {
  label: string;
  of: string;
  value: number | null;
  center: number;
  lower: number | null;
  upper: number | null;
  signals: readonly { sentence: string }[];
};
const chartTable = (points: readonly Point[]): string =>
  table<Point>(
    [
      ['point', ({ label }) => label],
      ['of', ({ of }) => of],
      ['value', ({ value }) => value],
      ['center', ({ center }) => center],
      ['lower limit', ({ lower }) => lower],
      ['upper limit', ({ upper }) => upper],
      ['signals', ({ signals }) => signals.map(({ sentence }) => sentence).join(' ')],
    ],
    points,
  );
