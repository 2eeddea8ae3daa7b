// How much each role may approve alone.
import type { ReactNode } from 'react';
import { TextInput } from '@mantine/core';
import type { Authority } from '@backsight/contract/firm';
import { ROLES } from '@backsight/contract/people';
import { setLimit } from '../../api/firm.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Form } from '../../ui/Form.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { centsOf } from '../../ui/amount.ts';

type Limit = Authority['limits'][number];
const COLUMNS: Column<Limit>[] = [
  { key: 'role', head: 'Role', cell: ({ role }) => ROLES[role] },
  {
    key: 'limit',
    head: 'Approves alone',
    align: 'right',
    cell: ({ limitCents }) => (limitCents === null ? 'any amount' : <Money cents={limitCents} />),
  },
];
const CHANGEABLE = ['lead_inspector', 'office_manager'] as const;

export function Limits({ limits, mayChange }: { limits: Limit[]; mayChange: boolean }): ReactNode {
  return (
    <Section title="Approval limits">
      <DataTable caption="Approval limits" columns={COLUMNS} rows={limits} rowKey={({ role }) => role} />
      {mayChange ? CHANGEABLE.map((role) => <Change key={role} role={role} />) : null}
    </Section>
  );
}

function Change({ role }: { role: (typeof CHANGEABLE)[number] }): ReactNode {
  const labels = { limitCents: `New limit of the ${ROLES[role]}, in dollars` };
  const save = useSend(setLimit, { refresh: ['firm'], said: 'The limit was set.', then: () => fields.setValues({ limitCents: '' }) });
  const fields = useFields({ limitCents: '' }, labels, save.error);
  const { id, ...input } = fields.text('limitCents');
  return (
    <div style={{ marginTop: '1rem' }}>
      <Form
        error={save.error}
        labels={labels}
        submit="Set this limit"
        busy={save.isPending}
        onSubmit={() => save.mutate({ role, limitCents: centsOf(fields.values.limitCents) })}
      >
        <TextInput id={`${id}-${role}`} {...input} inputMode="decimal" maw="24rem" />
      </Form>
    </div>
  );
}
