// What clients say of how callbacks were handled: counts by month of closing. No callback, pair or person is named or ranked.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { ANSWERS } from '@backsight/contract/callbacks/after';
import { answersQuery } from '../../api/callbacksAfter.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';

type Month = { month: string; counts: Record<string, number> };

const COLUMNS: Column<Month>[] = [
  { key: 'month', head: 'Closed in', cell: (m) => m.month },
  ...Object.entries({ ...ANSWERS, none: 'No answer' }).map(([key, head]) => ({
    key,
    head,
    align: 'right' as const,
    cell: (m: Month) => m.counts[key] ?? 0,
  })),
];

export function AnswersPage(): ReactNode {
  const { data, error, isPending } = useQuery(answersQuery);
  const months = [...new Set((data ?? []).map(({ month }) => month))].map((month) => ({
    month,
    counts: Object.fromEntries((data ?? []).filter((one) => one.month === month).map(({ answer, count }) => [answer, count])),
  }));
  return (
    <Page
      title="How clients say we handled it"
      about="One question in the closing letter, counted by the month of closing. Few answers say little, and no answer says nothing."
      actions={<TextLink to="/callbacks">All callbacks</TextLink>}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data && months.length === 0 ? <Empty>No closing letter with the question has gone out yet.</Empty> : null}
      {months.length > 0 ? (
        <DataTable caption="Answers by month of closing" columns={COLUMNS} rows={months} rowKey={(m) => m.month} />
      ) : null}
    </Page>
  );
}
