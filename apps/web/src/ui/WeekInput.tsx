// Hours of each weekday: from and until, blank for none.
import type { ReactNode } from 'react';
import { Fieldset, Group, Text, TextInput } from '@mantine/core';
import { WEEKDAYS, type TypedWeek } from './clock.ts';

type Props = {
  legend: string;
  about?: string;
  value: TypedWeek;
  onChange: (week: TypedWeek) => void;
  error?: string | undefined;
  id?: string;
};

export function WeekInput({ legend, about, value, onChange, error, id }: Props): ReactNode {
  const set = (at: number, part: 'from' | 'until', typed: string) =>
    onChange(value.map((day, i) => (i === at ? { ...day, [part]: typed } : day)));
  return (
    <Fieldset id={id} legend={legend} mt="md">
      {about ? (
        <Text size="sm" c="dimmed" mb="xs">
          {about}
        </Text>
      ) : null}
      {error ? (
        <Text role="alert" c="red">
          {error}
        </Text>
      ) : null}
      {WEEKDAYS.map((name, at) => (
        <Group key={name} gap="sm" mb={6}>
          <Text w={{ base: '100%', xs: '6.5rem' }} size="sm">
            {name}
          </Text>
          <TextInput
            type="time"
            aria-label={`${name} from`}
            value={value[at]!.from}
            onChange={(event) => set(at, 'from', event.currentTarget.value)}
          />
          <TextInput
            type="time"
            aria-label={`${name} until`}
            value={value[at]!.until}
            onChange={(event) => set(at, 'until', event.currentTarget.value)}
          />
        </Group>
      ))}
    </Fieldset>
  );
}
