// Properties that a person must not go to; the reason may stay unsaid.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { PersonFile } from '@backsight/contract/people/file';
import { newId } from '../../../api/ids.ts';
import { addBar, liftBar, propertiesQuery } from '../../../api/personFile.ts';
import { DataTable, type Column } from '../../../ui/DataTable.tsx';
import { Empty } from '../../../ui/Empty.tsx';
import { Form } from '../../../ui/Form.tsx';
import { ProblemNote } from '../../../ui/ProblemNote.tsx';
import { useFields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { AddPart, Leave } from './AddPart.tsx';

type Bar = PersonFile['bars'][number];
const LABELS = { text: 'Search the property by its address', propertyId: 'Property', reason: 'Reason' };

export function Bars({ personId, rows }: { personId: string; rows: Bar[] }): ReactNode {
  const lift = useSend(liftBar, { refresh: ['people', personId, 'file'], said: 'This person may go there again.' });
  const columns: Column<Bar>[] = [
    { key: 'address', head: 'Property', cell: ({ address }) => address },
    { key: 'reason', head: 'Reason', cell: ({ reason }) => reason ?? 'not said' },
    {
      key: 'act',
      head: 'Change',
      cell: ({ id }) => (
        <Button size="compact-sm" variant="default" onClick={() => lift.mutate(id)}>
          Let go there again
        </Button>
      ),
    },
  ];
  return (
    <AddPart title="Kept away from" add="Add a property" may form={(done) => <Add personId={personId} done={done} />}>
      <ProblemNote of={lift.error} />
      {rows.length === 0 ? (
        <Empty>No property: own purchase, relatives and the like would stand here.</Empty>
      ) : (
        <DataTable caption="Properties that this person is kept away from" columns={columns} rows={rows} rowKey={({ id }) => id} />
      )}
    </AddPart>
  );
}

function Add({ personId, done }: { personId: string; done: () => void }): ReactNode {
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addBar, { refresh: ['people', personId, 'file'], said: 'This person is no longer offered there.', then: done });
  const fields = useFields({ text: '', propertyId: '', reason: '' }, LABELS, add.error);
  const found = useQuery(propertiesQuery(fields.values.text));
  const choices = [
    { value: '', label: found.data ? `${found.data.length} found: choose one` : 'Search first' },
    ...(found.data ?? []).map(({ id, address }) => ({ value: id, label: address })),
  ];
  const send = () => add.mutate({ propertyId: fields.values.propertyId, reason: fields.values.reason || null, ...ids, personId });
  return (
    <Form error={add.error} labels={LABELS} submit="Keep away from it" busy={add.isPending} onSubmit={send} besides={<Leave done={done} />}>
      <TextInput {...fields.text('text')} type="search" />
      <NativeSelect {...fields.text('propertyId')} data={choices} mt="sm" />
      <TextInput {...fields.text('reason')} mt="sm" description="May stay blank" />
    </Form>
  );
}
