// Days on which the office is closed besides its usual hours; deadlines skip them.
import type { ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { closeDay, openDay } from '../../api/firm.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Form } from '../../ui/Form.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';

type ClosedDay = { day: string; name: string };
const LABELS = { day: 'Day', name: 'Why' };

export function ClosedDays({ days, mayChange }: { days: ClosedDay[]; mayChange: boolean }): ReactNode {
  const open = useSend(({ day }: ClosedDay) => openDay(day), {
    refresh: ['firm'],
    said: 'The office is open on that day.',
    undo: (closed) => () => closeDay(closed),
  });
  const columns: Column<ClosedDay>[] = [
    { key: 'day', head: 'Day', oneLine: true, cell: ({ day }) => <Day day={day} /> },
    { key: 'name', head: 'Why', cell: ({ name }) => name },
    ...(mayChange
      ? [
          {
            key: 'act',
            head: 'Change',
            cell: (closed: ClosedDay) => (
              <Button size="compact-sm" variant="default" onClick={() => open.mutate(closed)}>
                Open on this day
              </Button>
            ),
          },
        ]
      : []),
  ];
  return (
    <Section folds title="Closed days">
      <ProblemNote of={open.error} />
      {days.length === 0 ? (
        <Empty>No closed day is ahead.</Empty>
      ) : (
        <DataTable caption="Closed days" columns={columns} rows={days} rowKey={({ day }) => day} />
      )}
      {mayChange ? <Close /> : null}
    </Section>
  );
}

function Close(): ReactNode {
  const close = useSend(closeDay, {
    refresh: ['firm'],
    said: 'The day was closed.',
    then: () => fields.setValues({ day: '', name: '' }),
    undo:
      ({ day }) =>
      () =>
        openDay(day),
  });
  const fields = useFields({ day: '', name: '' }, LABELS, close.error);
  return (
    <div style={{ marginTop: 'var(--bs-space-6)' }}>
      <Form error={close.error} labels={LABELS} submit="Close this day" busy={close.isPending} onSubmit={() => close.mutate(fields.values)}>
        <Group align="flex-start">
          <TextInput {...fields.text('day')} type="date" required />
          <TextInput {...fields.text('name')} required />
        </Group>
      </Form>
    </div>
  );
}
