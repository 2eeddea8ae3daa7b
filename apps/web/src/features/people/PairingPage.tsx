// Who must not go together, and who goes only together.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { PAIRING_KINDS, type Pairing } from '@backsight/contract/people/file';
import { newId } from '../../api/ids.ts';
import { peopleQuery } from '../../api/people.ts';
import { addPairing, endPairing, pairingQuery } from '../../api/personFile.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Form } from '../../ui/Form.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';

const LABELS = { kind: 'Rule', aId: 'One', bId: 'Other', reason: 'Reason' };

export function PairingPage(): ReactNode {
  const rules = useQuery(pairingQuery);
  const end = useSend(({ id }: Pairing) => endPairing(id), {
    refresh: ['pairing-rules'],
    said: 'The rule has ended.',
    undo:
      ({ kind, aId, bId, reason }) =>
      () =>
        addPairing({ id: newId(), key: newId(), kind, aId, bId, reason }),
  });
  const columns: Column<Pairing>[] = [
    { key: 'who', head: 'Who', cell: ({ aName, bName }) => `${aName} and ${bName}` },
    { key: 'kind', head: 'Rule', cell: ({ kind }) => PAIRING_KINDS[kind] },
    { key: 'reason', head: 'Reason', cell: ({ reason }) => reason },
    {
      key: 'ended',
      head: 'In force',
      cell: (rule) =>
        rule.endedOn ? (
          <>
            ended <Day day={rule.endedOn} />
          </>
        ) : (
          <Button size="compact-sm" variant="default" onClick={() => end.mutate(rule)}>
            End it
          </Button>
        ),
    },
  ];
  return (
    <Page
      title="Pairing rules"
      width="narrow"
      about="The search for times offers only pairs that these rules allow. Visits that are booked stay as they are."
    >
      <ProblemNote of={rules.error ?? end.error} />
      {rules.isPending ? <Loading /> : null}
      {rules.data?.length === 0 ? <Empty>No rule: anybody may go with anybody, except two trainees.</Empty> : null}
      {rules.data && rules.data.length > 0 ? (
        <DataTable caption="Pairing rules" columns={columns} rows={rules.data} rowKey={({ id }) => id} />
      ) : null}
      <Section title="Add a rule">
        <Add />
      </Section>
    </Page>
  );
}

function Add(): ReactNode {
  const people = useQuery(peopleQuery);
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addPairing, {
    refresh: ['pairing-rules'],
    said: 'The rule is in force.',
    undo:
      ({ id }) =>
      () =>
        endPairing(id),
    then: () => setIds({ id: newId(), key: newId() }),
  });
  const fields = useFields({ kind: 'never_together' as keyof typeof PAIRING_KINDS, aId: '', bId: '', reason: '' }, LABELS, add.error);
  const inspectors = (people.data ?? []).filter(({ roles, endedOn }) => roles.includes('inspector') && endedOn === null);
  const choices = [{ value: '', label: 'Choose a person' }, ...inspectors.map(({ id, name }) => ({ value: id, label: name }))];
  return (
    <Form
      error={add.error ?? people.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Put it in force"
      busy={add.isPending}
      onSubmit={() => add.mutate({ ...fields.values, ...ids })}
    >
      <NativeSelect {...fields.text('kind')} data={Object.entries(PAIRING_KINDS).map(([value, label]) => ({ value, label }))} mb="sm" />
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <NativeSelect {...fields.text('aId')} data={choices} />
        <NativeSelect {...fields.text('bId')} data={choices} />
      </SimpleGrid>
      <TextInput {...fields.text('reason')} mt="sm" required />
    </Form>
  );
}
