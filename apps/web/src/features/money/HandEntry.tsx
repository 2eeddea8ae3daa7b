// An entry that the owner writes by hand: bank fees, insurance, what was put in or taken out. Debits must equal credits.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect, TextInput } from '@mantine/core';
import type { LedgerAccount } from '@backsight/contract/fees/ledger';
import { formatUsd } from '@backsight/domain/shared/money';
import { newId } from '../../api/ids.ts';
import { enterByHand } from '../../api/ledger.ts';
import { useMe } from '../../api/people.ts';
import { centsOf } from '../../ui/amount.ts';
import { Form } from '../../ui/Form.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

type Line = { account: string; debit: string; credit: string };
const EMPTY: Line = { account: '', debit: '', credit: '' };
const LABELS = { happenedOn: 'Day', memo: 'What it is about', lines: 'Lines' };

const centsIn = ({ debit, credit }: Line): number =>
  (debit.trim() === '' ? 0 : centsOf(debit)) - (credit.trim() === '' ? 0 : centsOf(credit));

export function HandEntry({ accounts }: { accounts: readonly LedgerAccount[] }): ReactNode {
  const { zone } = useMe();
  const [id, setId] = useState(newId);
  const start = { happenedOn: todayIn(zone), memo: '', lines: [EMPTY, EMPTY] };
  const save = useSend(enterByHand, {
    refresh: ['money'],
    said: 'The entry was written.',
    then: () => {
      fields.setValues(start);
      setId(newId());
    },
  });
  const fields = useFields(start, LABELS, save.error, 'hand');
  const { lines } = fields.values;
  const off = lines.reduce((sum, line) => sum + centsIn(line), 0);
  const change = (at: number, part: Partial<Line>) =>
    fields.set(
      'lines',
      lines.map((line, i) => (i === at ? { ...line, ...part } : line)),
    );
  const submit = () => {
    const filled = lines.filter(({ account }) => account !== '').map((line) => ({ account: line.account, cents: centsIn(line) }));
    save.mutate({ ...fields.values, id, lines: filled });
  };
  return (
    <Section title="Write an entry by hand">
      <p>What clients owe, deposits and callbacks are kept by the program, so that invoices and ledger always agree.</p>
      <Form error={save.error} labels={LABELS} scope="hand" submit="Write the entry" busy={save.isPending} onSubmit={submit}>
        <Group align="start">
          <TextInput {...fields.text('happenedOn')} type="date" />
          <TextInput {...fields.text('memo')} maxLength={120} w="22rem" maw="100%" />
        </Group>
        {lines.map((line, at) => (
          <Group key={at} mt="sm" align="end">
            <NativeSelect
              label={`Account, line ${at + 1}`}
              value={line.account}
              onChange={(event) => change(at, { account: event.currentTarget.value })}
              data={[{ value: '', label: 'choose' }, ...accounts.map(({ code, name }) => ({ value: code, label: name }))]}
            />
            <TextInput
              label={`Debit, line ${at + 1}`}
              w="8rem"
              inputMode="decimal"
              value={line.debit}
              onChange={(event) => change(at, { debit: event.currentTarget.value })}
            />
            <TextInput
              label={`Credit, line ${at + 1}`}
              w="8rem"
              inputMode="decimal"
              value={line.credit}
              onChange={(event) => change(at, { credit: event.currentTarget.value })}
            />
          </Group>
        ))}
        <Group mt="sm">
          <Button variant="default" size="compact-md" onClick={() => fields.set('lines', [...lines, EMPTY])}>
            One more line
          </Button>
          <span role="status">
            {Number.isNaN(off) ? 'An amount is not readable.' : off === 0 ? 'Balanced.' : `Off by ${formatUsd(Math.abs(off))}.`}
          </span>
        </Group>
      </Form>
    </Section>
  );
}
