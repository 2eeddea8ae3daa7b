// Qualifications of a person beside licenses.
import { useState, type ReactNode } from 'react';
import { NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import type { PersonFile } from '@backsight/contract/people/file';
import { newId } from '../../../api/ids.ts';
import { addQualification, endQualification } from '../../../api/personFile.ts';
import { DataTable, type Column } from '../../../ui/DataTable.tsx';
import { Empty } from '../../../ui/Empty.tsx';
import { Form } from '../../../ui/Form.tsx';
import { useFields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { Day } from '../../../ui/When.tsx';
import { AddPart, Leave } from './AddPart.tsx';
import { EndPart } from './EndPart.tsx';

type Qualification = PersonFile['qualifications'][number];
type Kind = PersonFile['qualificationKinds'][number];
const LABELS = { kind: 'Qualification', fromDay: 'First day', untilDay: 'Last day' };
const COLUMNS: Column<Qualification>[] = [
  { key: 'name', head: 'Qualification', cell: ({ name }) => name },
  { key: 'from', head: 'First day', cell: ({ fromDay }) => <Day day={fromDay} /> },
  { key: 'until', head: 'Last day', cell: ({ untilDay }) => (untilDay ? <Day day={untilDay} /> : 'open') },
];

const ending = (personId: string): Column<Qualification> => ({
  key: 'end',
  head: 'Ends early or late',
  cell: (row) => <EndPart personId={personId} id={row.id} name={row.name} untilDay={row.untilDay} send={endQualification} />,
});

export function Qualifications({
  personId,
  rows,
  kinds,
  mayAdd,
}: {
  personId: string;
  rows: Qualification[];
  kinds: Kind[];
  mayAdd: boolean;
}): ReactNode {
  return (
    <AddPart
      title="Qualifications"
      add="Add a qualification"
      may={mayAdd && kinds.length > 0}
      form={(done) => <Add personId={personId} kinds={kinds} done={done} />}
    >
      {rows.length === 0 ? (
        <Empty>No qualification is on file.</Empty>
      ) : (
        <DataTable
          caption="Qualifications"
          columns={mayAdd ? [...COLUMNS, ending(personId)] : COLUMNS}
          rows={rows}
          rowKey={({ id }) => id}
        />
      )}
    </AddPart>
  );
}

function Add({ personId, kinds, done }: { personId: string; kinds: Kind[]; done: () => void }): ReactNode {
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addQualification, { refresh: ['people', personId, 'file'], said: 'The qualification is on file.', then: done });
  const fields = useFields({ kind: kinds[0]!.key, fromDay: '', untilDay: '' }, LABELS, add.error);
  const send = () => add.mutate({ ...fields.values, untilDay: fields.values.untilDay || null, ...ids, personId });
  return (
    <Form error={add.error} labels={LABELS} submit="Put it on file" busy={add.isPending} onSubmit={send} besides={<Leave done={done} />}>
      <NativeSelect {...fields.text('kind')} data={kinds.map(({ key, name }) => ({ value: key, label: name }))} mb="sm" />
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <TextInput {...fields.text('fromDay')} type="date" required />
        <TextInput {...fields.text('untilDay')} type="date" description="Blank: open" />
      </SimpleGrid>
    </Form>
  );
}
