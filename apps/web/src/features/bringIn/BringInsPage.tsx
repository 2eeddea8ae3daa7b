// Where bringing records in begins: what the file holds, the file itself, and every spreadsheet so far.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useInfiniteQuery } from '@tanstack/react-query';
import { RECORD_KINDS, type BringInLine } from '@backsight/contract/firm/bringIns';
import { bringInsQuery } from '../../api/bringIns.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { ChooseFile } from './ChooseFile.tsx';
import { manyOf, STATES } from './words.ts';

const COLUMNS: Column<BringInLine>[] = [
  {
    key: 'name',
    head: 'Spreadsheet',
    cell: ({ id, name }) => (
      <TextLink to="/bring-in/$bringInId" params={{ bringInId: id }}>
        {name}
      </TextLink>
    ),
  },
  { key: 'kind', head: 'Holds', cell: ({ kind }) => RECORD_KINDS[kind] },
  { key: 'state', head: 'It', cell: ({ state }) => STATES[state] },
  {
    key: 'count',
    head: 'Brought',
    cell: ({ kind, counts, state }) => (counts && (state === 'done' || state === 'undoing') ? manyOf(kind, counts.fresh) : ''),
  },
  { key: 'rows', head: 'Rows', align: 'right', cell: ({ rows }) => rows.toLocaleString('en-US') },
  { key: 'by', head: 'By', cell: ({ askedBy }) => askedBy },
  { key: 'at', head: 'When', cell: ({ at }) => <When at={at} /> },
];

export function BringInsPage(): ReactNode {
  return (
    <Page
      title="Bring in records"
      about="People, clients, properties and past jobs, from a spreadsheet that you have already. Its columns may stand in any order."
    >
      <ChooseFile />
      <SoFar />
    </Page>
  );
}

function SoFar(): ReactNode {
  const list = useInfiniteQuery(bringInsQuery);
  const rows = list.data?.pages.flatMap(({ items }) => items) ?? [];
  return (
    <Section title="Spreadsheets so far">
      <ProblemNote of={list.error} />
      {list.isPending ? <Loading /> : null}
      {list.data && rows.length === 0 ? (
        <Empty>None yet. Nothing is brought in before you have seen what would come of it, and it can be taken out again.</Empty>
      ) : null}
      {rows.length > 0 ? <DataTable caption="Spreadsheets so far" columns={COLUMNS} rows={rows} rowKey={({ id }) => id} /> : null}
      {list.hasNextPage ? (
        <Button mt="md" variant="default" loading={list.isFetchingNextPage} onClick={() => void list.fetchNextPage()}>
          Show older ones
        </Button>
      ) : null}
    </Section>
  );
}
