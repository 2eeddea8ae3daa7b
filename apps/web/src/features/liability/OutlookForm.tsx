// What would change: typed in percent, dollars and minutes; what is left empty stays as it is.
import type { ReactNode } from 'react';
import { Fieldset, NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import { formatUsd } from '@backsight/domain/shared/money';
import type { Outlook } from '@backsight/contract/liability/outlook';
import { centsOf, dollarsOf } from '../../ui/amount.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { ASKED, type OutlookSearch } from './outlookSearch.ts';

const LABELS = {
  feePercent: 'Fees, in percent of now',
  jobsPercent: 'Jobs that you then expect more or fewer, in percent',
  capCents: 'Cap of the agreement, the most that one callback may cost, in dollars',
  deductibleCents: 'Deductible of the policy, in dollars',
  premiumCents: 'What insurance then costs more or less a year, in dollars',
  stepKey: 'Step',
  stepMinutes: 'Minutes more or less each time',
  fewerLeast: 'Fewer failures of it, at least, in percent',
  fewerMost: 'At most, in percent',
};
const EMPTY = Object.fromEntries(Object.keys(LABELS).map((name) => [name, ''])) as Record<keyof typeof LABELS, string>;
const MONEY = ['capCents', 'deductibleCents', 'premiumCents'] as const;

/** '-1,200' -> -120000; what is no amount is sent as it was typed, so that the service tells. */
const centsText = (typed: string): string => {
  if (typed.trim() === '') return '';
  const below = typed.trim().startsWith('-');
  const cents = centsOf(typed.trim().replace(/^-/, ''));
  return Number.isNaN(cents) ? typed : String(below ? -cents : cents);
};
const dollarsText = (cents: string | undefined): string => {
  if (cents === undefined) return '';
  return /^-?\d+$/.test(cents) ? dollarsOf(Number(cents)) : cents;
};

type Props = {
  search: OutlookSearch;
  steps: Outlook['steps'];
  policy: Outlook['policy'];
  error: unknown;
  onAsk: (asked: OutlookSearch) => void;
};

export function OutlookForm({ search, steps, policy, error, onAsk }: Props): ReactNode {
  const dollars = Object.fromEntries(MONEY.map((name) => [name, dollarsText(search[name])]));
  const typed = Object.fromEntries(ASKED.map((name) => [name, search[name] ?? '']));
  const { text, values } = useFields({ ...EMPTY, ...typed, ...dollars }, LABELS, error);
  const ask = () => onAsk({ ...values, ...Object.fromEntries(MONEY.map((name) => [name, centsText(values[name])])) });
  const number = (name: keyof typeof LABELS) => ({ ...text(name), inputMode: 'decimal' as const, placeholder: 'as now' });
  return (
    <Form error={error} labels={LABELS} submit="Show what it would mean" onSubmit={ask}>
      <SimpleGrid cols={{ base: 1, md: 3 }} spacing="md">
        <Fieldset legend="Fee">
          <TextInput {...number('feePercent')} description="10 is a tenth more, -5 a twentieth less" />
          <TextInput {...number('jobsPercent')} description="Your own judgment: nothing here can tell it" mt="sm" />
        </Fieldset>
        <Fieldset legend="Agreement and insurance">
          <TextInput {...number('capCents')} />
          <TextInput
            {...number('deductibleCents')}
            description={policy ? `Now ${formatUsd(policy.deductibleCents)}` : 'No policy is in force'}
            mt="sm"
          />
          <TextInput {...number('premiumCents')} mt="sm" />
        </Fieldset>
        <Fieldset legend="A step">
          <NativeSelect
            {...text('stepKey')}
            data={[
              { value: '', label: 'none' },
              ...steps.map(({ key, title, traced }) => ({ value: key, label: traced > 0 ? `${title} (${traced} traced)` : title })),
            ]}
          />
          <TextInput {...number('stepMinutes')} mt="sm" />
          <TextInput {...number('fewerLeast')} description="Below 0 it would fail more" mt="sm" />
          <TextInput {...number('fewerMost')} mt="sm" />
        </Fieldset>
      </SimpleGrid>
    </Form>
  );
}
