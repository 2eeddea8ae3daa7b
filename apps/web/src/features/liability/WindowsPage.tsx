// Claim windows that are still open: by month of inspection with the limits of the agreements, and what closes when.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { windowTables, type WindowMonth, type WindowPart, type Windows } from '@backsight/contract/liability/windows';
import { shortUsd } from '@backsight/domain/shared/money';
import { windowsQuery } from '../../api/owner.ts';
import { tableAddress } from '../../api/tables.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { counted, monthText, shortDay } from './monthWords.ts';
import { TableFiles } from './TableFiles.tsx';
import classes from './Owner.module.css';

type Row = Omit<WindowMonth, 'month'> & { month: string | null };
const count = (key: string, head: string, of: (row: Row) => number, only?: WindowPart): Column<Row> => ({
  key,
  head,
  align: 'right',
  cell: (row) =>
    of(row) === 0 ? (
      0
    ) : (
      <TextLink
        to="/liabilities/windows/jobs"
        search={{ ...(row.month === null ? {} : { inspected: row.month }), ...(only ? { only } : {}) }}
      >
        {of(row).toLocaleString('en-US')}
      </TextLink>
    ),
});
const MONTHS: Column<Row>[] = [
  { key: 'month', head: 'Inspected in', oneLine: true, cell: (row) => (row.month === null ? 'All' : monthText(row.month)) },
  count('short', 'Shortest reading', (row) => row.shortJobs, 'short'),
  count('long', 'Longest reading', (row) => row.jobs),
  {
    key: 'cap',
    head: 'Limits agreed',
    align: 'right',
    cell: (row) =>
      row.capCents === 0 ? (
        shortUsd(0)
      ) : (
        <TextLink to="/liabilities/windows/jobs" search={{ ...(row.month === null ? {} : { inspected: row.month }), only: 'cap' }}>
          {shortUsd(row.capCents)}
        </TextLink>
      ),
  },
  count('no_cap', 'No limit', (row) => row.noCap, 'no_cap'),
  count('unsigned', 'Not signed', (row) => row.unsigned, 'unsigned'),
  count('held', 'Held', (row) => row.held, 'held'),
  count('called', 'Callbacks open', (row) => row.openCallbacks, 'called'),
];

type Closing = Windows['closing'][number];
const closes = (by: 'short' | 'long') => ({
  key: by,
  head: by === 'short' ? 'By the shortest reading' : 'By the longest reading',
  align: 'right' as const,
  cell: (row: Closing): ReactNode =>
    row[by].jobs === 0 ? (
      'none'
    ) : (
      <>
        <TextLink to="/liabilities/windows/jobs" search={{ closes: row.month, by }}>
          {counted(row[by].jobs, 'job')}
        </TextLink>
        {row[by].capCents > 0 ? `, limits ${shortUsd(row[by].capCents)}` : ''}
      </>
    ),
});
const CLOSING: Column<Closing>[] = [
  { key: 'month', head: 'Closes in', oneLine: true, cell: (row) => monthText(row.month) },
  closes('short'),
  closes('long'),
];
const SHOWN = 24;

export function WindowsPage(): ReactNode {
  const { data, error, isPending } = useQuery(windowsQuery);
  return (
    <Page
      title="Claim windows"
      about="For how long claims may still be brought for work already done, and what the agreements limit."
      actions={<TextLink to="/liabilities">Liabilities</TextLink>}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Content data={data} /> : null}
    </Page>
  );
}

const jobs = (n: number, only?: WindowPart): ReactNode =>
  n === 0 ? (
    0
  ) : (
    <TextLink to="/liabilities/windows/jobs" search={only ? { only } : {}}>
      {n.toLocaleString('en-US')}
    </TextLink>
  );
const until = (day: string | null): string => (day === null ? 'jobs' : `jobs, the last until ${shortDay(day)}`);

type KeyNumber = [name: string, number: ReactNode, note: string];
const numbersOf = ({ total, last }: Windows): KeyNumber[] => [
  ['Open by the shortest reading', jobs(total.shortJobs, 'short'), until(last.short)],
  ['Open by the longest reading', jobs(total.jobs), until(last.long)],
  [
    'Limits in their agreements',
    total.capCents === 0 ? 'none' : shortUsd(total.capCents),
    total.capBarred > 0 ? `${counted(total.capBarred, 'job')} where the state bars a limit` : 'as agreed',
  ],
  ...(total.capCents === 0 ? [] : [['Without a limit', jobs(total.noCap, 'no_cap'), 'jobs with a signed agreement'] as KeyNumber]),
  ['Without a signed agreement', jobs(total.unsigned, 'unsigned'), 'jobs'],
  ['Held as evidence', jobs(total.held, 'held'), `jobs; ${counted(total.openCallbacks, 'open callback')}`],
];

/** Columns that say something: what is 0, or all of them, in every month stands among the numbers above. */
const monthColumns = ({ total }: Windows): Column<Row>[] => {
  const some = {
    cap: total.capCents,
    no_cap: total.capCents === 0 ? 0 : total.noCap,
    unsigned: total.unsigned,
    held: total.held,
    called: total.openCallbacks,
  };
  return MONTHS.filter(({ key }) => some[key as keyof typeof some] !== 0);
};

function Content({ data }: { data: Windows }): ReactNode {
  const { total, months, closing } = data;
  if (total.jobs + data.withoutRule === 0)
    return <Empty>No claim window is open: nothing was inspected, or all of them have closed.</Empty>;
  return (
    <>
      <dl className={classes.keys}>
        {numbersOf(data).map(([name, number, note]) => (
          <div key={name} className={classes.key}>
            <dt>{name}</dt>
            <dd>
              <span className={classes.number}>{number}</span>
              <span className={classes.note}>{note}</span>
            </dd>
          </div>
        ))}
      </dl>
      <Cautions data={data} />
      <Section title="What closes when" actions={<TableFiles csv={tableAddress(windowTables.page, 'closing')} of="what closes when" />}>
        {closing.every(({ short, long }) => short.jobs + long.jobs === 0) ? (
          <p>None closes in the next twelve months, by either reading.</p>
        ) : (
          <DataTable
            caption="Claim windows that close in the next twelve months"
            columns={CLOSING}
            rows={closing}
            rowKey={(row) => row.month}
          />
        )}
      </Section>
      <Section
        title="Open by month of inspection"
        folds
        actions={<TableFiles csv={tableAddress(windowTables.page, 'months')} of="by month of inspection" />}
      >
        <DataTable
          caption="Open claim windows by month of inspection"
          columns={monthColumns(data)}
          rows={[{ month: null, ...total }, ...months.slice(0, SHOWN)]}
          rowKey={(row) => row.month ?? 'all'}
        />
        {months.length > SHOWN ? (
          <details style={{ marginTop: '0.75rem' }}>
            <summary>{`${months.length - SHOWN} months before`}</summary>
            <DataTable
              caption="Open claim windows by earlier month of inspection"
              columns={monthColumns(data)}
              rows={months.slice(SHOWN)}
              rowKey={(row) => row.month ?? 'all'}
            />
          </details>
        ) : null}
      </Section>
    </>
  );
}

/** What a count of days cannot say; and the rules that the counts rest on. */
const Cautions = ({ data }: { data: Windows }): ReactNode => (
  <section aria-label="Cautions">
    <p>
      <strong>Not legal advice.</strong> A court may count from the day on which the matter was discovered, or hold that a time stood still,
      so that a claim can come later than the longest reading here. The longer one counts until an attorney says otherwise. A limit in an
      agreement may not hold where a law bars it.
    </p>
    {data.readings.length > 0 ? (
      <details>
        <summary>The rules that these counts rest on</summary>
        <ul>
          {data.readings.map((r) => (
            <li key={r.state + r.words}>{`${r.state}: ${r.words} (${r.source}; ${r.certainty})`}</li>
          ))}
        </ul>
      </details>
    ) : null}
    {data.withoutRule > 0 ? (
      <p>{`For ${counted(data.withoutRule, 'job')} no time to claim is on file for their state: when their windows close cannot be told, and they are in no number here.`}</p>
    ) : null}
    {data.future > 0 ? <p>{`${counted(data.future, 'job')} stand as inspected on a day that is still to come.`}</p> : null}
  </section>
);
