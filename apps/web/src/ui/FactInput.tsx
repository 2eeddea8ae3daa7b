// One input about a property, made from the catalogue of facts. Left alone it means "not known yet".
import type { ReactNode } from 'react';
import { Chip, Group, Input, NativeSelect, TextInput } from '@mantine/core';
import { FACTS, type FactDefinition, type FactKey, type PropertyFacts } from '@backsight/domain/shared/facts';

type Props = { fact: FactKey; facts: PropertyFacts; onChange: (facts: PropertyFacts) => void };

const UNKNOWN = 'not known yet';

/** The facts with one of them known, or not known again. */
const withFact = (facts: PropertyFacts, fact: FactKey, value: unknown): PropertyFacts => {
  const { [fact]: _before, ...rest } = facts;
  return value === undefined ? rest : ({ ...rest, [fact]: value } as PropertyFacts);
};

export function FactInput({ fact, facts, onChange }: Props): ReactNode {
  const definition: FactDefinition = FACTS[fact];
  const set = (value: unknown) => onChange(withFact(facts, fact, value));
  const value = facts[fact];
  if (definition.type === 'number') {
    const typed = (text: string) =>
      set(text.trim() === '' || Number.isNaN(Number(text.replace(',', ''))) ? undefined : Number(text.replace(',', '')));
    return (
      <TextInput
        label={`${definition.label}${definition.unit ? ` (${definition.unit})` : ''}`}
        inputMode="decimal"
        autoComplete="off"
        placeholder={UNKNOWN}
        value={value === undefined ? '' : String(value)}
        onChange={(event) => typed(event.currentTarget.value)}
      />
    );
  }
  if (definition.type === 'yesNo') {
    return (
      <NativeSelect
        label={definition.label}
        value={value === undefined ? '' : String(value)}
        onChange={(event) => set(event.currentTarget.value === '' ? undefined : event.currentTarget.value === 'true')}
        data={[
          { value: '', label: UNKNOWN },
          { value: 'true', label: 'yes' },
          { value: 'false', label: 'no' },
        ]}
      />
    );
  }
  const options = Object.entries(definition.options);
  if (definition.type === 'choice') {
    return (
      <NativeSelect
        label={definition.label}
        value={(value as string | undefined) ?? ''}
        onChange={(event) => set(event.currentTarget.value || undefined)}
        data={[{ value: '', label: UNKNOWN }, ...options.map(([key, label]) => ({ value: key, label }))]}
      />
    );
  }
  const chosen = (value as readonly string[] | undefined) ?? [];
  return (
    <Input.Wrapper label={definition.label} labelElement="div" role="group" aria-label={definition.label}>
      <Chip.Group multiple value={[...chosen]} onChange={(next) => set(next.length > 0 ? next : undefined)}>
        <Group gap={6} mt={4}>
          {options.map(([key, label]) => (
            <Chip key={key} value={key} size="sm">
              {label}
            </Chip>
          ))}
        </Group>
      </Chip.Group>
    </Input.Wrapper>
  );
}
