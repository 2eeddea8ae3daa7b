// How much each role may approve alone, and take off a fee by hand.
import type { ReactNode } from 'react';
import { TextInput } from '@mantine/core';
import type { Authority } from '@backsight/contract/firm';
import { ROLES } from '@backsight/contract/people';
import { setDiscountLimit, setLimit } from '../../api/firm.ts';
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
  {
    key: 'discount',
    head: 'Discounts by hand',
    align: 'right',
    cell: ({ discountCents }) =>
      discountCents === null ? (
        'any amount'
      ) : (
        <>
          up to <Money cents={discountCents} />
        </>
      ),
  },
];
const CHANGEABLE = ['lead_inspector', 'office_manager'] as const;

export function Limits({ limits, mayChange }: { limits: Limit[]; mayChange: boolean }): ReactNode {
  return (
    <Section folds title="Approval limits">
      <DataTable caption="Approval limits" columns={COLUMNS} rows={limits} rowKey={({ role }) => role} />
      {mayChange ? CHANGEABLE.map((role) => <Change key={role} role={role} now={limits.find((limit) => limit.role === role)} />) : null}
    </Section>
  );
}

type Changed = { role: (typeof CHANGEABLE)[number]; now: Limit | undefined };

function Change({ role, now }: Changed): ReactNode {
  const labels = { limitCents: `New limit of the ${ROLES[role]}, in dollars` };
  const save = useSend(setLimit, {
    refresh: ['firm'],
    said: 'The limit was set.',
    then: () => fields.setValues({ limitCents: '' }),
    undo: () => (now ? () => setLimit({ role, limitCents: now.limitCents }) : null),
  });
  const fields = useFields({ limitCents: '' }, labels, save.error, role);
  return (
    <div style={{ marginTop: 'var(--bs-space-6)' }}>
      <Form
        error={save.error}
        labels={labels}
        scope={role}
        submit="Set this limit"
        busy={save.isPending}
        onSubmit={() => save.mutate({ role, limitCents: centsOf(fields.values.limitCents) })}
      >
        <TextInput {...fields.text('limitCents')} inputMode="decimal" maw="24rem" />
      </Form>
      <DiscountLimit role={role} now={now} />
    </div>
  );
}

function DiscountLimit({ role, now }: Changed): ReactNode {
  const labels = { discountCents: `Discounts of the ${ROLES[role]} up to, in dollars` };
  const save = useSend(setDiscountLimit, {
    refresh: ['firm'],
    said: 'The limit of discounts was set.',
    then: () => fields.setValues({ discountCents: '' }),
    undo: () => (now ? () => setDiscountLimit({ role, discountCents: now.discountCents }) : null),
  });
  const fields = useFields({ discountCents: '' }, labels, save.error, `${role}-discount`);
  const typed = fields.values.discountCents;
  return (
    <div style={{ marginTop: 'var(--bs-space-6)' }}>
      <Form
        error={save.error}
        labels={labels}
        scope={`${role}-discount`}
        submit="Set the limit of discounts"
        busy={save.isPending}
        onSubmit={() => save.mutate({ role, discountCents: typed.trim() === '' ? null : centsOf(typed) })}
      >
        <TextInput {...fields.text('discountCents')} inputMode="decimal" maw="24rem" description="Left empty: no limit." />
      </Form>
    </div>
  );
}
