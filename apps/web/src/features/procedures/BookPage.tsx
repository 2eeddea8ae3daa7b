// The procedure book by system: what is in force, what is drafted, what is to come, what I have to read.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { BookLine } from '@backsight/contract/procedures';
import { useMe } from '../../api/people.ts';
import { bookQuery, mineQuery } from '../../api/procedures.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { mayRevise, systemName } from './words.ts';

const COLUMNS: Column<BookLine>[] = [
  {
    key: 'title',
    head: 'Procedure',
    cell: ({ id, title }) => (
      <TextLink to="/procedures/$procedureId" params={{ procedureId: id }}>
        {title}
      </TextLink>
    ),
  },
  { key: 'system', head: 'System', cell: ({ system }) => systemName(system) },
  {
    key: 'inForce',
    head: 'In force',
    cell: ({ inForce }) =>
      inForce ? (inForce.retires ? 'retired' : `revision ${inForce.number}, ${inForce.stepCount} steps`) : 'none yet',
  },
  {
    key: 'toCome',
    head: 'To come',
    cell: ({ toCome }) =>
      toCome.length === 0
        ? 'none'
        : toCome.map((row) => (
            <div key={row.id}>
              <TextLink to="/procedures/revision/$revisionId" params={{ revisionId: row.id }}>
                revision {row.number}
              </TextLink>{' '}
              from <When at={row.inForceFrom!} />
            </div>
          )),
  },
  {
    key: 'draft',
    head: 'Draft',
    cell: ({ draft }) =>
      draft ? (
        <TextLink to="/procedures/revision/$revisionId" params={{ revisionId: draft.id }}>
          revision {draft.number} by {draft.author}
        </TextLink>
      ) : (
        'none'
      ),
  },
  { key: 'missing', head: 'Not acknowledged', align: 'right', cell: ({ missing }) => missing },
];

export function BookPage(): ReactNode {
  const me = useMe();
  const book = useQuery(bookQuery);
  return (
    <Page
      title="Procedures"
      about="The firm's written way of inspecting, by system of the house."
      actions={
        <>
          {mayRevise(me.roles) ? (
            <ButtonLink to="/procedures/new" variant="default">
              New procedure
            </ButtonLink>
          ) : null}
          <ButtonLink to="/procedures/coverage" search={{ gapsOnly: false }} variant="default">
            Coverage of published rules
          </ButtonLink>
        </>
      }
    >
      <Mine />
      <ProblemNote of={book.error} />
      {book.isPending ? <Loading /> : null}
      {book.data?.length === 0 ? <Empty>There are no procedures yet. They come with the set-up of the firm.</Empty> : null}
      {book.data && book.data.length > 0 ? (
        <DataTable caption="Procedures of the firm" columns={COLUMNS} rows={book.data} rowKey={({ id }) => id} />
      ) : null}
    </Page>
  );
}

function Mine(): ReactNode {
  const mine = useQuery(mineQuery);
  if (!mine.data || mine.data.length === 0) return <ProblemNote of={mine.error} />;
  return (
    <section aria-label="To read and acknowledge">
      <h2>To read and acknowledge</h2>
      <ul>
        {mine.data.map((one) => (
          <li key={one.revisionId}>
            <TextLink to="/procedures/acknowledge/$revisionId" params={{ revisionId: one.revisionId }}>
              {one.procedureTitle}, revision {one.number}
            </TextLink>
            , by <When at={one.acknowledgeBy} />
          </li>
        ))}
      </ul>
    </section>
  );
}
