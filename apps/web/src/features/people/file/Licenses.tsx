// Licenses of a person, with the days on which they count.
import { useState, type ReactNode } from 'react';
import { SimpleGrid, TextInput } from '@mantine/core';
import type { PersonFile } from '@backsight/contract/people/file';
import { newId } from '../../../api/ids.ts';
import { addLicense, endLicense } from '../../../api/personFile.ts';
import { DataTable, type Column } from '../../../ui/DataTable.tsx';
import { Empty } from '../../../ui/Empty.tsx';
import { Form } from '../../../ui/Form.tsx';
import { useFields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { Day } from '../../../ui/When.tsx';
import { AddPart, Leave } from './AddPart.tsx';
import { EndPart } from './EndPart.tsx';

type License = PersonFile['licenses'][number];
const LABELS = { kind: 'Kind', number: 'Number', fromDay: 'First day', untilDay: 'Last day' };
const COLUMNS: Column<License>[] = [
  { key: 'kind', head: 'License', cell: ({ kind }) => kind.replaceAll('_', ' ') },
  { key: 'number', head: 'Number', cell: ({ number }) => number },
  { key: 'from', head: 'First day', cell: ({ fromDay }) => <Day day={fromDay} /> },
  { key: 'until', head: 'Last day', cell: ({ untilDay }) => <Day day={untilDay} /> },
];

const ending = (personId: string): Column<License> => ({
  key: 'end',
  head: 'Ends early or late',
  cell: (row) => <EndPart personId={personId} id={row.id} name={`license ${row.number}`} untilDay={row.untilDay} send={endLicense} />,
});

export function Licenses({ personId, rows, mayAdd }: { personId: string; rows: License[]; mayAdd: boolean }): ReactNode {
  return (
    <AddPart title="Licenses" add="Add a license" may={mayAdd} form={(done) => <Add personId={personId} done={done} />}>
      {rows.length === 0 ? (
        <Empty>No license is on file. Without one nobody is offered for a visit.</Empty>
      ) : (
        <DataTable caption="Licenses" columns={mayAdd ? [...COLUMNS, ending(personId)] : COLUMNS} rows={rows} rowKey={({ id }) => id} />
      )}
    </AddPart>
  );
}

/** Kinds are kept as booking rules name them: 'Home inspector' is home_inspector. */
const keyOf = (kind: string): string => kind.trim().toLowerCase().replace(/\s+/g, '_');

function Add({ personId, done }: { personId: string; done: () => void }): ReactNode {
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addLicense, { refresh: ['people', personId, 'file'], said: 'The license is on file.', then: done });
  const fields = useFields({ kind: 'home inspector', number: '', fromDay: '', untilDay: '' }, LABELS, add.error);
  return (
    <Form
      error={add.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Put it on file"
      busy={add.isPending}
      onSubmit={() => add.mutate({ ...fields.values, kind: keyOf(fields.values.kind), ...ids, personId })}
      besides={<Leave done={done} />}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <TextInput
          {...fields.text('kind')}
          required
          description="home inspector is what a visit asks for; other kinds under their own name"
        />
        <TextInput {...fields.text('number')} required />
        <TextInput {...fields.text('fromDay')} type="date" required />
        <TextInput {...fields.text('untilDay')} type="date" required />
      </SimpleGrid>
    </Form>
  );
}
