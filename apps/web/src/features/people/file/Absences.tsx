// Absences of a person; entering one lists the booked visits that it hits.
import { useState, type ReactNode } from 'react';
import { Button, SimpleGrid, TextInput } from '@mantine/core';
import { DateTime } from 'luxon';
import type { PersonFile } from '@backsight/contract/people/file';
import { newId } from '../../../api/ids.ts';
import { useMe } from '../../../api/people.ts';
import { addAbsence, withdrawAbsence } from '../../../api/personFile.ts';
import { DataTable, type Column } from '../../../ui/DataTable.tsx';
import { Empty } from '../../../ui/Empty.tsx';
import { Form } from '../../../ui/Form.tsx';
import { ProblemNote } from '../../../ui/ProblemNote.tsx';
import { useFields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { When } from '../../../ui/When.tsx';
import { AddPart, Leave } from './AddPart.tsx';
import { HitVisits } from './HitVisits.tsx';

type Absence = PersonFile['absences'][number];
const LABELS = { startsAt: 'From', endsAt: 'Until', reason: 'Reason, seen by the office and the person only' };

export function Absences({ personId, rows, mayAdd }: { personId: string; rows: Absence[]; mayAdd: boolean }): ReactNode {
  const withdraw = useSend(withdrawAbsence, { refresh: ['people', personId, 'file'], said: 'The absence was withdrawn.' });
  const columns: Column<Absence>[] = [
    { key: 'from', head: 'From', cell: ({ startsAt }) => <When at={startsAt} /> },
    { key: 'until', head: 'Until', cell: ({ endsAt }) => <When at={endsAt} /> },
    { key: 'reason', head: 'Reason', cell: ({ reason }) => reason ?? 'not shown' },
    ...(mayAdd
      ? [
          {
            key: 'act',
            head: 'Change',
            cell: ({ id }: Absence) => (
              <Button size="compact-sm" variant="default" onClick={() => withdraw.mutate(id)}>
                Withdraw
              </Button>
            ),
          },
        ]
      : []),
  ];
  return (
    <AddPart title="Absences" add="Enter an absence" may={mayAdd} form={(done) => <Add personId={personId} done={done} />}>
      <ProblemNote of={withdraw.error} />
      {rows.length === 0 ? (
        <Empty>No absence is on file.</Empty>
      ) : (
        <DataTable caption="Absences" columns={columns} rows={rows} rowKey={({ id }) => id} />
      )}
    </AddPart>
  );
}

function Add({ personId, done }: { personId: string; done: () => void }): ReactNode {
  const { zone } = useMe();
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addAbsence, {
    refresh: ['people', personId, 'file'],
    said: 'The absence is on file.',
    then: ({ warnings }) => warnings.length === 0 && done(),
  });
  const fields = useFields({ startsAt: '', endsAt: '', reason: '' }, LABELS, add.error);
  const instant = (typed: string): string => DateTime.fromISO(typed, { zone }).toISO() ?? '';
  const send = () =>
    add.mutate({
      startsAt: instant(fields.values.startsAt),
      endsAt: instant(fields.values.endsAt),
      reason: fields.values.reason,
      ...ids,
      personId,
    });
  if (add.data && add.data.warnings.length > 0) return <HitVisits warnings={add.data.warnings} done={done} />;
  return (
    <Form
      error={add.error}
      labels={LABELS}
      submit="Enter this absence"
      busy={add.isPending}
      onSubmit={send}
      besides={<Leave done={done} />}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <TextInput {...fields.text('startsAt')} type="datetime-local" required />
        <TextInput {...fields.text('endsAt')} type="datetime-local" required />
      </SimpleGrid>
      <TextInput {...fields.text('reason')} required mt="sm" />
    </Form>
  );
}
