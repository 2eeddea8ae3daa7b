// What a spreadsheet brought, and taking it out again as long as nothing depends on it.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import type { BringIn } from '@backsight/contract/firm/bringIns';
import { broughtQuery, dependsQuery, takeThemOut } from '../../api/bringIns.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { Counts } from './Counts.tsx';
import { PastJobs } from './PastJobs.tsx';
import { manyOf } from './words.ts';

export function Brought({ of }: { of: BringIn }): ReactNode {
  const { counts, broughtAt, endedAt } = of;
  return (
    <>
      <p>
        {broughtAt ? (
          <>
            Brought in <When at={broughtAt} />
            {endedAt ? (
              <>
                , taken out again <When at={endedAt} />
              </>
            ) : null}
            .
          </>
        ) : (
          <>
            Thrown away
            {endedAt ? (
              <>
                {' '}
                <When at={endedAt} />
              </>
            ) : null}
            . Nothing was brought in.
          </>
        )}{' '}
        {of.hasFile ? 'The file is kept for a week.' : 'The file is not kept any more.'}
      </p>
      {counts && broughtAt ? <Counts of={of} counts={counts} /> : null}
      {of.state === 'done' ? (
        <>
          {of.kind === 'people' ? (
            <p>
              Nobody can sign in yet: invite each from their page in <TextLink to="/people">People</TextLink>.
            </p>
          ) : null}
          {of.kind === 'jobs' ? <PastJobs /> : null}
          <Records of={of} />
          <TakeOut of={of} />
        </>
      ) : null}
    </>
  );
}

type Row = { id: string; name: string; about: string; jobId: string | null };

const columnsOf = (kind: BringIn['kind']): Column<Row>[] => [
  {
    key: 'name',
    head: 'Brought in',
    cell: ({ id, name, jobId }) =>
      jobId ? (
        <TextLink to="/jobs/$jobId" params={{ jobId }}>
          {name}
        </TextLink>
      ) : kind === 'people' ? (
        <TextLink to="/people/$personId" params={{ personId: id }}>
          {name}
        </TextLink>
      ) : (
        name
      ),
  },
  { key: 'about', head: 'About', cell: ({ about }) => about },
];

function Records({ of: { id, kind } }: { of: BringIn }): ReactNode {
  const list = useInfiniteQuery(broughtQuery(id));
  const rows = list.data?.pages.flatMap(({ items }) => items) ?? [];
  return (
    <Section title="What came with it">
      <ProblemNote of={list.error} />
      {list.isPending ? <Loading /> : null}
      {rows.length > 0 ? <DataTable caption="What came with it" columns={columnsOf(kind)} rows={rows} rowKey={(row) => row.id} /> : null}
      {list.hasNextPage ? (
        <Button mt="md" variant="default" loading={list.isFetchingNextPage} onClick={() => void list.fetchNextPage()}>
          Show more
        </Button>
      ) : null}
    </Section>
  );
}

const DEPENDS: Column<{ record: string; because: string }>[] = [
  { key: 'record', head: 'What came with it', cell: ({ record }) => record },
  { key: 'because', head: 'Why it stays', cell: ({ because }) => because },
];

function TakeOut({ of: { id, version, kind, counts } }: { of: BringIn }): ReactNode {
  const [asked, setAsked] = useState(false);
  const depends = useQuery(dependsQuery(id));
  const send = useSend(takeThemOut, { refresh: ['bring-ins'], said: 'They are being taken out again.' });
  const items = depends.data?.items ?? [];
  return (
    <Section title="Take it out again">
      <ProblemNote of={depends.error} />
      {depends.isPending ? <Loading /> : null}
      {items.length > 0 ? (
        <>
          <p>Not possible any more: something has come to depend on what came with this spreadsheet.</p>
          <DataTable caption="What depends on it" columns={DEPENDS} rows={items} rowKey={({ record, because }) => record + because} />
        </>
      ) : null}
      {depends.data && items.length === 0 ? (
        <>
          <p>Nothing depends on it yet. Everything that came with this spreadsheet leaves again, and nothing else changes.</p>
          <Button variant="default" onClick={() => setAsked(true)}>
            Take {manyOf(kind, counts?.fresh ?? 0)} out again
          </Button>
        </>
      ) : null}
      <ConfirmDialog
        opened={asked}
        title="Take it out again?"
        act="Take it out"
        busy={send.isPending}
        error={send.error}
        onConfirm={() => send.mutate({ id, version })}
        onClose={() => setAsked(false)}
      >
        <p>{manyOf(kind, counts?.fresh ?? 0)} and what came along with them leave. The audit trail keeps that they were here.</p>
      </ConfirmDialog>
    </Section>
  );
}
