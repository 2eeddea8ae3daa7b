// Authority lent to a named person for stated days.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Authority } from '@backsight/contract/firm';
import { ROLES } from '@backsight/contract/people';
import { endLoan, lend, type LimitRole } from '../../api/firm.ts';
import { newId } from '../../api/ids.ts';
import { peopleQuery, useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Form } from '../../ui/Form.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';

type Loan = Authority['loans'][number];
const LABELS = { borrowerId: 'To whom', role: 'Authority of the', fromDay: 'First day', untilDay: 'Last day', reason: 'Why' };

/** The loan, to be given once more. */
const againOf = ({ borrowerId, role, fromDay, untilDay, reason }: Loan) => ({
  ...{ id: newId(), key: newId() },
  ...{ borrowerId, role: role as LimitRole, fromDay, untilDay, reason },
});

export function Loans({ loans }: { loans: Loan[] }): ReactNode {
  const me = useMe();
  const end = useSend(({ id }: Loan) => endLoan(id), {
    refresh: ['firm'],
    said: 'The loan has ended.',
    undo: (loan) => (loan.lenderId === me.id ? () => lend(againOf(loan)) : null),
  });
  const columns: Column<Loan>[] = [
    { key: 'who', head: 'To', cell: ({ borrowerName }) => borrowerName },
    { key: 'what', head: 'Authority', cell: ({ role, lenderName }) => `${ROLES[role]}, lent by ${lenderName}` },
    {
      key: 'days',
      head: 'Days',
      cell: ({ fromDay, untilDay }) => (
        <>
          <Day day={fromDay} /> to <Day day={untilDay} />
        </>
      ),
    },
    { key: 'why', head: 'Why', cell: ({ reason }) => reason },
    {
      key: 'act',
      head: 'Change',
      cell: (loan) =>
        loan.lenderId === me.id || me.roles.includes('owner') ? (
          <Button size="compact-sm" variant="default" onClick={() => end.mutate(loan)}>
            End it
          </Button>
        ) : null,
    },
  ];
  return (
    <Section folds title="Lent authority">
      <ProblemNote of={end.error} />
      {loans.length === 0 ? (
        <Empty>No authority is lent.</Empty>
      ) : (
        <DataTable caption="Lent authority" columns={columns} rows={loans} rowKey={({ id }) => id} />
      )}
      <Lend />
    </Section>
  );
}

function Lend(): ReactNode {
  const me = useMe();
  const people = useQuery(peopleQuery);
  const held = me.roles.filter((role): role is LimitRole => role !== 'inspector');
  const today = todayIn(me.zone);
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const give = useSend(lend, {
    refresh: ['firm'],
    said: 'The authority was lent.',
    undo:
      ({ id }) =>
      () =>
        endLoan(id),
    then: () => setIds({ id: newId(), key: newId() }),
  });
  const fields = useFields({ borrowerId: '', role: held[0] ?? 'owner', fromDay: today, untilDay: today, reason: '' }, LABELS, give.error);
  const others = (people.data ?? []).filter(({ id, endedOn }) => id !== me.id && endedOn === null);
  return (
    <div style={{ marginTop: 'var(--bs-space-6)' }}>
      <Form
        error={give.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Lend it"
        busy={give.isPending}
        onSubmit={() => give.mutate({ ...fields.values, ...ids })}
      >
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <NativeSelect
            {...fields.text('borrowerId')}
            data={[{ value: '', label: 'Choose a person' }, ...others.map(({ id, name }) => ({ value: id, label: name }))]}
          />
          <NativeSelect {...fields.text('role')} data={held.map((role) => ({ value: role, label: ROLES[role] }))} />
          <TextInput {...fields.text('fromDay')} type="date" />
          <TextInput {...fields.text('untilDay')} type="date" />
        </SimpleGrid>
        <TextInput {...fields.text('reason')} mt="sm" required />
      </Form>
    </div>
  );
}
