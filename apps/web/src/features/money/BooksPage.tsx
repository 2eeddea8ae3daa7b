// Closed months: through which day the books are closed, closing one more, opening again.
import { useState, type ReactNode } from 'react';
import { SimpleGrid, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Books } from '@backsight/contract/fees/ledger';
import { newId } from '../../api/ids.ts';
import { booksQuery, closeBooks, reopenBooks } from '../../api/ledger.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Form } from '../../ui/Form.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';

const COLUMNS: Column<Books['acts'][number]>[] = [
  {
    key: 'what',
    head: 'What',
    cell: ({ through }) =>
      through ? (
        <>
          Closed through <Day day={through} />
        </>
      ) : (
        'All opened'
      ),
  },
  { key: 'why', head: 'Reason', cell: ({ reason }) => reason },
  { key: 'by', head: 'By', cell: ({ recordedBy }) => recordedBy },
  { key: 'at', head: 'When', cell: ({ recordedAt }) => <When at={recordedAt} /> },
];

export function BooksPage(): ReactNode {
  const books = useQuery(booksQuery);
  return (
    <Page
      title="Closed months"
      about="Nothing can be entered any more on a day of a closed month. What comes in late stands on the first open day, with its real day beside it."
    >
      <ProblemNote of={books.error} />
      {books.isPending ? <Loading /> : null}
      {books.data ? <Shown key={books.data.acts[0]?.id ?? ''} books={books.data} /> : null}
    </Page>
  );
}

function Shown({ books }: { books: Books }): ReactNode {
  return (
    <>
      <p>
        {books.through ? (
          <>
            The books are closed through <Day day={books.through} />.
          </>
        ) : (
          'No month is closed.'
        )}
      </p>
      <SimpleGrid cols={{ base: 1, sm: 2 }} spacing="xl">
        <Close />
        {books.through ? <Reopen through={books.through} /> : null}
      </SimpleGrid>
      <Section title="What was closed and opened">
        {books.acts.length === 0 ? (
          <Empty>Nothing yet.</Empty>
        ) : (
          <DataTable caption="Closings" columns={COLUMNS} rows={books.acts} rowKey={({ id }) => id} />
        )}
      </Section>
    </>
  );
}

/** '2026-05' -> '2026-05-31'; what is no month is sent as it is, and refused at its field. */
const lastDayOf = (month: string): string => {
  const [year, number] = month.split('-').map(Number);
  return year && number ? new Date(Date.UTC(year, number, 0)).toISOString().slice(0, 10) : month;
};

const CLOSE = { through: 'Month', reason: 'Note' };

function Close(): ReactNode {
  const [id] = useState(newId);
  const save = useSend(closeBooks, { refresh: ['money'], said: 'The month is closed.' });
  const fields = useFields({ through: '', reason: 'Month end' }, CLOSE, save.error, 'close');
  const send = () => save.mutate({ id, through: lastDayOf(fields.values.through), reason: fields.values.reason });
  return (
    <Section title="Close through a month">
      <Form error={save.error} labels={CLOSE} scope="close" submit="Close the books" busy={save.isPending} onSubmit={send}>
        <TextInput {...fields.text('through')} type="month" placeholder="2026-05" />
        <TextInput {...fields.text('reason')} mt="sm" maxLength={200} />
      </Form>
    </Section>
  );
}

const REOPEN = { from: 'From this month on', reason: 'Reason' };

function Reopen({ through }: { through: string }): ReactNode {
  const [id] = useState(newId);
  const save = useSend(reopenBooks, { refresh: ['money'], said: 'The books are open again from this month on.' });
  const fields = useFields({ from: through.slice(0, 7), reason: '' }, REOPEN, save.error, 'reopen');
  const send = () => save.mutate({ id, from: fields.values.from === '' ? '' : `${fields.values.from}-01`, reason: fields.values.reason });
  return (
    <Section title="Open again">
      <Form error={save.error} labels={REOPEN} scope="reopen" submit="Open the books" busy={save.isPending} onSubmit={send}>
        <TextInput {...fields.text('from')} type="month" />
        <TextInput {...fields.text('reason')} mt="sm" maxLength={200} />
      </Form>
    </Section>
  );
}
