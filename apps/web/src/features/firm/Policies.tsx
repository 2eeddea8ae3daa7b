// The firm's insurance policies: adding one, and correcting one.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import type { Policy } from '@backsight/contract/firm';
import { endPolicy } from '../../api/firm.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useOpenedFrom } from '../../ui/opened.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';
import { dayText } from '../../ui/time.ts';
import { BASES, KINDS, PolicyForm } from './PolicyForm.tsx';

const ACTS = { change: 'Change', renew: 'Renew', end: 'End' } as const;
const COLUMNS: Column<Policy>[] = [
  { key: 'number', head: 'Policy', cell: ({ kind, number, insurer }) => `${KINDS[kind]}, ${insurer}, ${number}` },
  { key: 'basis', head: 'Covers', cell: ({ basis }) => BASES[basis] },
  {
    key: 'days',
    head: 'Period',
    cell: ({ startsOn, endsOn }) => (
      <>
        <Day day={startsOn} /> to <Day day={endsOn} />
      </>
    ),
  },
  {
    key: 'limit',
    head: 'One claim / all claims',
    align: 'right',
    cell: ({ limitCents, aggregateCents }) => (
      <>
        <Money cents={limitCents} />
        {aggregateCents === null ? null : (
          <>
            {' / '}
            <Money cents={aggregateCents} />
          </>
        )}
      </>
    ),
  },
  { key: 'deductible', head: 'Deductible', align: 'right', cell: ({ deductibleCents }) => <Money cents={deductibleCents} /> },
];

type Opened = { act: 'add' | 'change' | 'renew' | 'end'; policy: Policy | null };

export function Policies({ policies, mayAdd }: { policies: Policy[]; mayAdd: boolean }): ReactNode {
  const [open, setOpen] = useState<Opened | null>(null);
  useOpenedFrom(open);
  const close = () => setOpen(null);
  const change: Column<Policy> = {
    key: 'change',
    head: 'Change',
    cell: (policy) => (
      <Group gap="xs">
        {(['change', 'renew', 'end'] as const).map((act) => (
          <Button
            key={act}
            size="compact-sm"
            variant="default"
            aria-label={`${ACTS[act]} policy ${policy.number}`}
            onClick={() => setOpen({ act, policy })}
          >
            {ACTS[act]}
          </Button>
        ))}
      </Group>
    ),
  };
  return (
    <Section
      folds
      title="Insurance"
      actions={
        mayAdd && open === null ? (
          <Button size="compact-md" variant="default" onClick={() => setOpen({ act: 'add', policy: null })}>
            Add a policy
          </Button>
        ) : undefined
      }
    >
      {policies.length === 0 ? (
        <Empty>No policy is on file.</Empty>
      ) : (
        <DataTable caption="Insurance policies" columns={mayAdd ? [...COLUMNS, change] : COLUMNS} rows={policies} rowKey={({ id }) => id} />
      )}
      <p>
        <TextLink to="/certificates">Certificates of insurance</TextLink>, as they go to agents and relocation firms.
      </p>
      {open === null ? null : <Open key={open.act + (open.policy?.id ?? '')} opened={open} done={close} />}
    </Section>
  );
}

function Open({ opened: { act, policy }, done }: { opened: Opened; done: () => void }): ReactNode {
  if (act === 'end' && policy) return <EndPolicy policy={policy} done={done} />;
  return act === 'renew' && policy ? <PolicyForm policy={null} renews={policy} done={done} /> : <PolicyForm policy={policy} done={done} />;
}

const END = { endsOn: 'Last day of cover', reason: 'Who ends it, and why' };

function EndPolicy({ policy, done }: { policy: Policy; done: () => void }): ReactNode {
  const end = useSend(endPolicy, { refresh: ['firm'], said: 'The policy ends on that day.', then: done });
  const { text, values } = useFields({ endsOn: '', reason: '' }, END, end.error);
  return (
    <Form
      error={end.error}
      labels={END}
      submit={`End policy ${policy.number}`}
      busy={end.isPending}
      onSubmit={() => end.mutate({ id: policy.id, ...values })}
      besides={
        <Button variant="default" onClick={done}>
          Leave without saving
        </Button>
      }
    >
      <TextInput
        {...text('endsOn')}
        type="date"
        required
        maw="16rem"
        mt="md"
        description={`On file it ends on ${dayText(policy.endsOn)}`}
      />
      <TextInput {...text('reason')} required mt="sm" />
    </Form>
  );
}
