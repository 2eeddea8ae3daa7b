// Everything that is to be said about rows, by line, some at a time; all of it as a file to work along.
import { useState, type ReactNode } from 'react';
import { Button, Group, SegmentedControl } from '@mantine/core';
import { useInfiniteQuery } from '@tanstack/react-query';
import type { BringIn, BringInCounts, BringInProblem } from '@backsight/contract/firm/bringIns';
import { problemsAddress, problemsQuery } from '../../api/bringIns.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';

type Weight = BringInProblem['weight'];
const SAID: Record<Weight, string> = { stops: 'is left out', look: 'comes in; look at it', known: 'is on file' };

const COLUMNS: Column<BringInProblem>[] = [
  { key: 'line', head: 'Line', oneLine: true, cell: ({ line }) => line.toLocaleString('en-US') },
  { key: 'column', head: 'Column', cell: ({ column }) => (column === '' ? 'the whole row' : column) },
  { key: 'value', head: 'Cell', cell: ({ value }) => value },
  { key: 'text', head: 'What there is to say', sentences: true, cell: ({ text }) => text },
  { key: 'weight', head: 'The row', cell: ({ weight }) => SAID[weight] },
];

export function Problems({ of, counts }: { of: BringIn; counts: BringInCounts }): ReactNode {
  const first: Weight | null = counts.left > 0 ? 'stops' : counts.look > 0 ? 'look' : counts.known > 0 ? 'known' : null;
  const [weight, setWeight] = useState<Weight>(first ?? 'stops');
  const list = useInfiniteQuery({ ...problemsQuery({ id: of.id, version: of.version, weight }), enabled: first !== null });
  if (first === null) return <p>There is nothing to say about any row.</p>;
  const rows = list.data?.pages.flatMap(({ items }) => items) ?? [];
  return (
    <Section title="Row by row" actions={<a href={problemsAddress(of.id)}>All as a file (CSV)</a>}>
      <Group mb="sm">
        <SegmentedControl
          aria-label="Which rows"
          value={weight}
          onChange={(value) => setWeight(value as Weight)}
          data={[
            { value: 'stops', label: `To put right (${counts.left.toLocaleString('en-US')})` },
            { value: 'look', label: `To look at (${counts.look.toLocaleString('en-US')})` },
            { value: 'known', label: `On file (${counts.known.toLocaleString('en-US')})` },
          ]}
        />
      </Group>
      <ProblemNote of={list.error} />
      {list.isPending ? <Loading /> : null}
      {list.data && rows.length === 0 ? <p>None of these.</p> : null}
      {rows.length > 0 ? (
        <DataTable caption="Row by row" columns={COLUMNS} rows={rows} rowKey={({ position }) => String(position)} />
      ) : null}
      {list.hasNextPage ? (
        <Button mt="md" variant="default" loading={list.isFetchingNextPage} onClick={() => void list.fetchNextPage()}>
          Show more
        </Button>
      ) : null}
    </Section>
  );
}
