// From which month of inspection to which figures are counted; without a word, the last three years.
import type { ReactNode } from 'react';
import { Group, TextInput } from '@mantine/core';

export type SpanChosen = { from?: string | undefined; until?: string | undefined };
type Props = {
  asked: SpanChosen;
  shown: { from: string; until: string } | undefined;
  onChange: (span: SpanChosen) => void;
  children?: ReactNode;
};

export function SpanForm({ asked, shown, onChange, children }: Props): ReactNode {
  const value = (key: keyof SpanChosen): string => asked[key] ?? shown?.[key] ?? '';
  const input = (key: keyof SpanChosen, label: string): ReactNode => (
    <TextInput
      label={label}
      type="month"
      placeholder="2026-05"
      value={value(key)}
      onChange={(event) => onChange({ ...asked, [key]: event.currentTarget.value || undefined })}
    />
  );
  return (
    <Group align="flex-end" gap="sm" mb="md" role="search" aria-label="Months of inspection">
      {input('from', 'Inspected from')}
      {input('until', 'until')}
      {children}
    </Group>
  );
}
