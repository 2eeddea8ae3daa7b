// What is shown: counted what, by which period, as known on which day, by which method, with whose expectation.
import { useState, type ReactNode } from 'react';
import { Group, NativeSelect, TextInput } from '@mantine/core';
import { CHOICES, GRAINS, MEASURED, type Development } from '@backsight/contract/liability/development';
import { parseUsd } from '@backsight/domain/shared/money';
import type { DevelopmentSearch } from '../../api/development.ts';
import { COUNTED, METHODS } from './developmentWords.ts';

type Props = { asked: DevelopmentSearch; shown: Development | undefined; onChange: (more: DevelopmentSearch) => void };
const PERIODS = { month: 'Month', quarter: 'Quarter', year: 'Year' } as const;

export function DevelopmentForm({ asked, shown, onChange }: Props): ReactNode {
  const of = asked.of ?? 'incurred';
  const change = (key: keyof DevelopmentSearch) => (event: { currentTarget: { value: string } }) =>
    onChange({ [key]: event.currentTarget.value || undefined });
  return (
    <Group align="flex-end" gap="sm" mb="md" role="search" aria-label="What is shown">
      <NativeSelect
        label="Counted"
        value={of}
        data={MEASURED.map((value) => ({ value, label: COUNTED[value] }))}
        onChange={(event) => onChange({ of: event.currentTarget.value as typeof of, expected: undefined })}
      />
      <NativeSelect
        label="By period of inspection"
        value={asked.by ?? 'quarter'}
        data={GRAINS.map((value) => ({ value, label: PERIODS[value] }))}
        onChange={change('by')}
      />
      <TextInput label="As known at the end of" type="date" value={asked.asOf ?? shown?.asOf ?? ''} onChange={change('asOf')} />
      <NativeSelect
        label="Method"
        value={asked.method ?? 'each'}
        data={CHOICES.map((value) => ({ value, label: METHODS[value] }))}
        onChange={change('method')}
      />
      <Expected key={`${of} ${String(asked.expected)}`} of={of} expected={asked.expected} onChange={onChange} />
    </Group>
  );
}

type ExpectedProps = { of: Development['of']; expected: unknown; onChange: Props['onChange'] };

/** Taken over when the field is left or Enter is pressed, so that nothing is asked for while somebody types. */
function Expected({ of, expected, onChange }: ExpectedProps): ReactNode {
  const known = expected === undefined ? '' : of === 'callbacks' ? String(expected) : (Number(expected) / 100).toFixed(2);
  const [text, setText] = useState(known);
  const [wrong, setWrong] = useState(false);
  function take(): void {
    if (text.trim() === known) return setWrong(false);
    const value = text.trim() === '' ? undefined : of === 'callbacks' ? Number(text) : parseUsd(text);
    const fits = value === undefined || (value !== null && Number.isFinite(value) && value >= 0);
    setWrong(!fits);
    if (fits) onChange({ expected: value });
  }
  return (
    <TextInput
      label={of === 'callbacks' ? 'You expect, callbacks per 100 jobs' : 'You expect, dollars per 100 jobs'}
      placeholder="from the figures"
      inputMode="decimal"
      value={text}
      error={wrong ? 'Give a number of at least 0.' : undefined}
      onChange={(event) => setText(event.currentTarget.value)}
      onBlur={take}
      onKeyDown={(event) => (event.key === 'Enter' ? take() : undefined)}
    />
  );
}
