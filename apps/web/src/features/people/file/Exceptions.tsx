// Days on which a person works other hours than usual, an extra day, or not at all.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, SimpleGrid, TextInput } from '@mantine/core';
import type { PersonFile } from '@backsight/contract/people/file';
import { newId } from '../../../api/ids.ts';
import { useMe } from '../../../api/people.ts';
import { addException, withdrawException } from '../../../api/personFile.ts';
import { clockOf, minuteOf } from '../../../ui/clock.ts';
import { DataTable, type Column } from '../../../ui/DataTable.tsx';
import { Empty } from '../../../ui/Empty.tsx';
import { Form } from '../../../ui/Form.tsx';
import { ProblemNote } from '../../../ui/ProblemNote.tsx';
import { todayIn } from '../../../ui/time.ts';
import { useFields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { Day } from '../../../ui/When.tsx';
import { AddPart, Leave } from './AddPart.tsx';
import { HitVisits } from './HitVisits.tsx';

type Exception = PersonFile['exceptions'][number];
const LABELS = { day: 'Day', off: 'Does not work on this day', startMinute: 'From', endMinute: 'Until', note: 'Note' };
const hoursOf = ({ startMinute, endMinute }: Exception): string =>
  startMinute === null || endMinute === null ? 'off' : `${clockOf(startMinute)} to ${clockOf(endMinute)}`;

export function Exceptions({ personId, rows, mayChange }: { personId: string; rows: Exception[]; mayChange: boolean }): ReactNode {
  const withdraw = useSend(({ id }: Exception) => withdrawException(id), {
    refresh: ['people', personId, 'file'],
    said: 'The usual hours count again.',
    undo:
      ({ day, startMinute, endMinute, note }) =>
      () =>
        addException({ personId, id: newId(), key: newId(), day, startMinute, endMinute, note }),
  });
  const columns: Column<Exception>[] = [
    { key: 'day', head: 'Day', cell: ({ day }) => <Day day={day} /> },
    { key: 'hours', head: 'Hours', cell: hoursOf },
    { key: 'note', head: 'Note', cell: ({ note }) => note },
    ...(mayChange
      ? [
          {
            key: 'act',
            head: 'Change',
            cell: (row: Exception) => (
              <Button size="compact-sm" variant="default" onClick={() => withdraw.mutate(row)}>
                Back to usual hours
              </Button>
            ),
          },
        ]
      : []),
  ];
  return (
    <AddPart title="Days with other hours" add="Add a day" may={mayChange} form={(done) => <Add personId={personId} done={done} />}>
      <ProblemNote of={withdraw.error} />
      {rows.length === 0 ? (
        <Empty>No day with other hours is ahead.</Empty>
      ) : (
        <DataTable caption="Days with other hours" columns={columns} rows={rows} rowKey={({ id }) => id} />
      )}
    </AddPart>
  );
}

function Add({ personId, done }: { personId: string; done: () => void }): ReactNode {
  const { zone } = useMe();
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addException, {
    refresh: ['people', personId, 'file'],
    said: 'The day is set.',
    undo:
      ({ id }) =>
      () =>
        withdrawException(id),
    then: ({ warnings }) => warnings.length === 0 && done(),
  });
  const fields = useFields(
    { day: todayIn(zone), off: false, startMinute: '08:00', endMinute: '12:00', note: '' },
    LABELS,
    add.error,
    'exception',
  );
  const { day, off, startMinute, endMinute, note } = fields.values;
  const minutes = off ? { startMinute: null, endMinute: null } : { startMinute: minuteOf(startMinute), endMinute: minuteOf(endMinute) };
  if (add.data && add.data.warnings.length > 0) return <HitVisits warnings={add.data.warnings} done={done} />;
  return (
    <Form
      error={add.error}
      labels={LABELS}
      scope="exception"
      draft={fields.draft}
      submit="Set this day"
      busy={add.isPending}
      onSubmit={() => add.mutate({ day, note, ...minutes, ...ids, personId })}
      besides={<Leave done={done} />}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <TextInput {...fields.text('day')} type="date" required />
        <TextInput {...fields.text('note')} />
      </SimpleGrid>
      <Checkbox {...fields.check('off')} mt="sm" />
      {off ? null : (
        <SimpleGrid cols={2} mt="sm">
          <TextInput {...fields.text('startMinute')} type="time" />
          <TextInput {...fields.text('endMinute')} type="time" />
        </SimpleGrid>
      )}
    </Form>
  );
}
