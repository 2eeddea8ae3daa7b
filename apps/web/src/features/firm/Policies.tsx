// The firm's insurance policies: adding one, and correcting one.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { Policy } from '@backsight/contract/firm';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day } from '../../ui/When.tsx';
import { BASES, KINDS, PolicyForm } from './PolicyForm.tsx';

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
  { key: 'limit', head: 'Limit', align: 'right', cell: ({ limitCents }) => <Money cents={limitCents} /> },
  { key: 'deductible', head: 'Deductible', align: 'right', cell: ({ deductibleCents }) => <Money cents={deductibleCents} /> },
];

export function Policies({ policies, mayAdd }: { policies: Policy[]; mayAdd: boolean }): ReactNode {
  const [open, setOpen] = useState<Policy | 'new' | null>(null);
  const change: Column<Policy> = {
    key: 'change',
    head: 'Change',
    cell: (policy) => (
      <Button size="compact-sm" variant="default" aria-label={`Change policy ${policy.number}`} onClick={() => setOpen(policy)}>
        Change
      </Button>
    ),
  };
  return (
    <Section
      folds
      title="Insurance"
      actions={
        mayAdd && open === null ? (
          <Button size="compact-md" variant="default" onClick={() => setOpen('new')}>
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
      {open === null ? null : (
        <PolicyForm key={open === 'new' ? open : open.id} policy={open === 'new' ? null : open} done={() => setOpen(null)} />
      )}
    </Section>
  );
}
