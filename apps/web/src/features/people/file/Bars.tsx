// Properties that a person must not go to, and people on jobs to whom he is not sent; the reason may stay unsaid.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { PersonFile } from '@backsight/contract/people/file';
import { newId } from '../../../api/ids.ts';
import { addBar, liftBar, barChoicesQuery } from '../../../api/personFile.ts';
import { DataTable, type Column } from '../../../ui/DataTable.tsx';
import { Empty } from '../../../ui/Empty.tsx';
import { Form } from '../../../ui/Form.tsx';
import { ProblemNote } from '../../../ui/ProblemNote.tsx';
import { useFields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { AddPart, Leave } from './AddPart.tsx';

type Bar = PersonFile['bars'][number];
const LABELS = { kind: 'Kept away from', text: 'Search', aboutId: 'Which', reason: 'Reason' };
const KINDS = { property: 'a property', party: 'somebody on its jobs' } as const;
const SEARCH = { property: 'Words of the address', party: 'Part of the name, e-mail address or phone' } as const;

export function Bars({ personId, rows }: { personId: string; rows: Bar[] }): ReactNode {
  const lift = useSend(({ id }: Bar) => liftBar(id), {
    refresh: ['people', personId, 'file'],
    said: 'This person may go there again.',
    undo:
      ({ kind, aboutId, reason }) =>
      () =>
        addBar({ personId, id: newId(), key: newId(), kind, aboutId, reason }),
  });
  const columns: Column<Bar>[] = [
    { key: 'name', head: 'Kept away from', cell: ({ kind, name }) => (kind === 'party' ? `every job of ${name}` : name) },
    { key: 'reason', head: 'Reason', cell: ({ reason }) => reason ?? 'not said' },
    {
      key: 'act',
      head: 'Change',
      cell: (bar) => (
        <Button size="compact-sm" variant="default" onClick={() => lift.mutate(bar)}>
          Let go there again
        </Button>
      ),
    },
  ];
  return (
    <AddPart title="Kept away from" add="Add a property or a person" may form={(done) => <Add personId={personId} done={done} />}>
      <ProblemNote of={lift.error} />
      {rows.length === 0 ? (
        <Empty>Nothing: an own purchase, relatives, a former employer and the like would stand here.</Empty>
      ) : (
        <DataTable caption="Where this person is kept away" columns={columns} rows={rows} rowKey={({ id }) => id} />
      )}
    </AddPart>
  );
}

function Add({ personId, done }: { personId: string; done: () => void }): ReactNode {
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addBar, {
    refresh: ['people', personId, 'file'],
    said: 'This person is no longer offered there.',
    then: done,
    undo:
      ({ id }) =>
      () =>
        liftBar(id),
  });
  const fields = useFields({ kind: 'property' as keyof typeof KINDS, text: '', aboutId: '', reason: '' }, LABELS, add.error);
  const { kind, text, aboutId, reason } = fields.values;
  const found = useQuery(barChoicesQuery(kind, text));
  const choices = [
    { value: '', label: found.data ? `${found.data.length} found: choose one` : 'Search first' },
    ...(found.data ?? []).map(({ id, name }) => ({ value: id, label: name })),
  ];
  const send = () => add.mutate({ kind, aboutId, reason: reason || null, ...ids, personId });
  return (
    <Form
      error={add.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Keep away"
      busy={add.isPending}
      onSubmit={send}
      besides={<Leave done={done} />}
    >
      <NativeSelect {...fields.text('kind')} data={Object.entries(KINDS).map(([value, label]) => ({ value, label }))} />
      <TextInput {...fields.text('text')} type="search" mt="sm" description={SEARCH[kind]} />
      <NativeSelect {...fields.text('aboutId')} data={choices} mt="sm" />
      <TextInput {...fields.text('reason')} mt="sm" description="May stay blank" />
    </Form>
  );
}
