// The firm's insurance policies, and adding one.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, SimpleGrid, Textarea, TextInput } from '@mantine/core';
import type { Policy } from '@backsight/contract/firm';
import { addPolicy, type NewPolicy } from '../../api/firm.ts';
import { newId } from '../../api/ids.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Form } from '../../ui/Form.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';
import { centsOf } from './amount.ts';

const KINDS = { professional: 'Professional liability', general: 'General liability' };
const BASES = { claims_made: 'claims made in the period', occurrence: 'events in the period' };
const LABELS = {
  kind: 'Kind', basis: 'Covers', insurer: 'Insurer', number: 'Policy number', startsOn: 'Begins', endsOn: 'Ends', retroactiveOn: 'Covers work since', limitCents: 'Limit, in dollars', deductibleCents: 'Deductible, in dollars',
  reportable: 'What must be reported to the insurer', noticeAddress: 'Where notice is sent',
};
const COLUMNS: Column<Policy>[] = [
  { key: 'number', head: 'Policy', cell: ({ kind, number, insurer }) => `${KINDS[kind]}, ${insurer}, ${number}` },
  { key: 'basis', head: 'Covers', cell: ({ basis }) => BASES[basis] },
  { key: 'days', head: 'Period', cell: ({ startsOn, endsOn }) => <><Day day={startsOn} /> to <Day day={endsOn} /></> },
  { key: 'limit', head: 'Limit', align: 'right', cell: ({ limitCents }) => <Money cents={limitCents} /> },
  { key: 'deductible', head: 'Deductible', align: 'right', cell: ({ deductibleCents }) => <Money cents={deductibleCents} /> },
];

export function Policies({ policies, mayAdd }: { policies: Policy[]; mayAdd: boolean }): ReactNode {
  const [adding, setAdding] = useState(false);
  return (
    <Section title="Insurance" actions={mayAdd && !adding ? <Button size="compact-md" variant="default" onClick={() => setAdding(true)}>Add a policy</Button> : undefined}>
      {policies.length === 0 ? <Empty>No policy is on file.</Empty> : <DataTable caption="Insurance policies" columns={COLUMNS} rows={policies} rowKey={({ id }) => id} />}
      {adding ? <Add done={() => setAdding(false)} /> : null}
    </Section>
  );
}

const EMPTY = { kind: 'professional', basis: 'claims_made', insurer: '', number: '', startsOn: '', endsOn: '', retroactiveOn: '', limitCents: '', deductibleCents: '', reportable: '', noticeAddress: '' };
const options = (names: Record<string, string>) => Object.entries(names).map(([value, label]) => ({ value, label }));

function Add({ done }: { done: () => void }): ReactNode {
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addPolicy, { refresh: ['firm'], said: 'The policy is on file.', then: done });
  const fields = useFields(EMPTY, LABELS, add.error);
  const { text, values } = fields;
  const send = () => add.mutate({ ...(values as typeof values & Pick<NewPolicy, 'kind' | 'basis'>), ...ids, retroactiveOn: values.retroactiveOn || null, limitCents: centsOf(values.limitCents), deductibleCents: centsOf(values.deductibleCents) });
  return (
    <Form error={add.error} labels={LABELS} submit="Put it on file" busy={add.isPending} onSubmit={send} besides={<Button variant="default" onClick={done}>Leave without saving</Button>}>
      <SimpleGrid cols={{ base: 1, xs: 2 }} mt="md">
        <NativeSelect {...text('kind')} data={options(KINDS)} />
        <NativeSelect {...text('basis')} data={options(BASES)} />
        <TextInput {...text('insurer')} required />
        <TextInput {...text('number')} required />
        <TextInput {...text('startsOn')} type="date" required />
        <TextInput {...text('endsOn')} type="date" required />
        <TextInput {...text('limitCents')} inputMode="decimal" required />
        <TextInput {...text('deductibleCents')} inputMode="decimal" required />
        <TextInput {...text('retroactiveOn')} type="date" description="Blank where the policy has no such day" />
      </SimpleGrid>
      <Textarea {...text('reportable')} mt="sm" required autosize minRows={2} />
      <Textarea {...text('noticeAddress')} mt="sm" required autosize minRows={2} />
    </Form>
  );
}
