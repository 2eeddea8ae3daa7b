// Tables of the steps and of the page of one, to take away; shares between 0 and 1.
import { tableOf, withTables, type TableCell, type TableHead } from '../table.ts';
import { CAUSES, KINDS, liabilityStepRoutes as routes, type StepFigures, type StepPage, type StepsPage } from './steps.ts';

type Column<Row> = TableHead & { of: (row: Row) => TableCell };
type Rated = Pick<StepFigures, 'rate'>;
const rates = <Row extends Rated>(): Column<Row>[] => [
  { head: 'failures per time', is: 'number', of: ({ rate }) => rate?.rate ?? null },
  { head: 'lower limit (95 %)', is: 'number', of: ({ rate }) => rate?.lower ?? null },
  { head: 'upper limit (95 %)', is: 'number', of: ({ rate }) => rate?.upper ?? null },
];
const SHARES = { skipped: 'skipped', couldNot: 'could not be inspected', differed: 'partners recorded different results' } as const;
const shares = <Row extends Pick<StepFigures, keyof typeof SHARES>>(): Column<Row>[] => [
  { head: 'times on sealed records', is: 'number', of: (row) => row.skipped?.total ?? 0 },
  ...(['skipped', 'couldNot', 'differed'] as const).flatMap((of): Column<Row>[] => [
    { head: SHARES[of], is: 'number', of: (row) => row[of]?.count ?? 0 },
    { head: `${SHARES[of]}: share from (95 %)`, is: 'number', of: (row) => row[of]?.lower ?? null },
    { head: `${SHARES[of]}: share to (95 %)`, is: 'number', of: (row) => row[of]?.upper ?? null },
  ]),
];
type Counts = { times: number; jobs: number; failures: number; nearMisses: number };
const counts = <Row extends Counts>(): Column<Row>[] => [
  { head: 'times applied', is: 'number', of: ({ times }) => times },
  { head: 'jobs', is: 'number', of: ({ jobs }) => jobs },
  { head: 'failures', is: 'number', of: ({ failures }) => failures },
  { head: 'near-misses', is: 'number', of: ({ nearMisses }) => nearMisses },
];

type Month = StepPage['months'][number] & { numbers: ReadonlyMap<string, number> };
const monthsOf = ({ months, revisions }: StepPage): Month[] => {
  const numbers = new Map(revisions.map(({ revisionId, number }) => [revisionId, number]));
  return months.map((month) => ({ ...month, numbers }));
};

export const stepTables = {
  list: withTables(routes.list, {
    steps: tableOf('Steps', ({ steps }: StepsPage) => steps, [
      { head: 'step', of: ({ title }) => title },
      { head: 'step key', of: ({ stepKey }) => stepKey },
      { head: 'procedure', of: ({ procedureTitle }) => procedureTitle },
      { head: 'system', of: ({ system }) => system },
      ...counts<StepFigures>(),
      ...rates<StepFigures>(),
      { head: 'paid', is: 'cents', of: ({ paidCents }) => paidCents },
      { head: 'set aside', is: 'cents', of: ({ reservedCents }) => reservedCents },
      { head: 'recovered', is: 'cents', of: ({ recoveredCents }) => recoveredCents },
      { head: 'incurred', is: 'cents', of: ({ incurredCents }) => incurredCents },
      ...shares<StepFigures>(),
    ]),
  }),
  one: withTables(routes.one, {
    months: tableOf('Step by month', monthsOf, [
      { head: 'month', of: ({ month }) => month },
      ...counts<Month>(),
      { head: 'times on sealed records', is: 'number', of: ({ judged }) => judged },
      { head: SHARES.skipped, is: 'number', of: ({ skipped }) => skipped },
      { head: SHARES.couldNot, is: 'number', of: ({ couldNot }) => couldNot },
      { head: SHARES.differed, is: 'number', of: ({ differed }) => differed },
      {
        head: 'times by revision',
        of: ({ revisions, numbers }) => revisions.map((r) => `${numbers.get(r.revisionId) ?? 'older'}: ${r.times}`).join('; '),
      },
    ]),
    revisions: tableOf('Step by revision', ({ revisions }: StepPage) => revisions, [
      { head: 'revision', is: 'number', of: ({ number }) => number },
      { head: 'in force from', is: 'instant', of: ({ inForceFrom }) => inForceFrom },
      ...counts<StepPage['revisions'][number]>(),
      ...rates<StepPage['revisions'][number]>(),
      ...shares<StepPage['revisions'][number]>(),
    ]),
    chart: tableOf('Control chart of a step', ({ chart }: StepPage) => (chart.ok ? chart.points : []), [
      { head: 'point', of: ({ label }) => label },
      { head: 'of', of: (row) => row.of },
      { head: 'value', is: 'number', of: ({ value }) => value },
      { head: 'center', is: 'number', of: ({ center }) => center },
      { head: 'lower limit', is: 'number', of: ({ lower }) => lower },
      { head: 'upper limit', is: 'number', of: ({ upper }) => upper },
      { head: 'signals', of: ({ signals }) => signals.map(({ sentence }) => sentence).join(' ') },
    ]),
    callbacks: tableOf(
      'Callbacks and near-misses traced to a step',
      ({ callbacks, nearMissCallbacks }: StepPage) => [...callbacks, ...nearMissCallbacks],
      [
        { head: 'callback', is: 'number', of: ({ number }) => number },
        { head: 'kind', of: ({ kind }) => KINDS[kind] },
        { head: 'received on', is: 'day', of: ({ receivedOn }) => receivedOn },
        { head: 'inspected on', is: 'day', of: ({ inspectedOn }) => inspectedOn },
        { head: 'place', of: ({ place }) => place },
        { head: 'cause', of: ({ cause }) => CAUSES[cause as keyof typeof CAUSES] ?? cause },
        { head: 'revision', is: 'number', of: ({ revision }) => revision },
        { head: 'incurred', is: 'cents', of: ({ incurredCents }) => incurredCents },
      ],
    ),
  }),
};
