// One input about a property, made from the catalogue of facts. Left alone it means "not known yet".
import { useState, type ReactNode } from 'react';
import { Chip, Group, Input, NativeSelect, TextInput } from '@mantine/core';
import { FACTS, type FactDefinition, type FactKey, type PropertyFacts } from '@backsight/domain/shared/facts';

type Props = { fact: FactKey; facts: PropertyFacts; onChange: (facts: PropertyFacts) => void };

const UNKNOWN = 'not known yet';

/** The facts with one of them known, or not known again. */
const withFact = (facts: PropertyFacts, fact: FactKey, value: unknown): PropertyFacts => {
  const { [fact]: _before, ...rest } = facts;
  return value === undefined ? rest : ({ ...rest, [fact]: value } as PropertyFacts);
};

type NumberProps = {
  definition: Extract<FactDefinition, { type: 'number' }>;
  value: number | undefined;
  onChange: (value: number | undefined) => void;
};

const read = (text: string): number => Number(text.replaceAll(',', ''));

/** What is typed stays as it is typed; only what can be true of a house is passed on, and the rest is said beside it. */
function NumberFact({ definition: { label, unit, min, max }, value, onChange }: NumberProps): ReactNode {
  const [typed, setTyped] = useState(value === undefined ? '' : String(value));
  const [left, setLeft] = useState(true);
  const fits = (text: string): boolean => text.trim() !== '' && read(text) >= min && read(text) <= max;
  const text = value === undefined ? (fits(typed) ? '' : typed) : read(typed) === value ? typed : String(value);
  // A number that may still become one is not called wrong while it is typed.
  const wrong = text.trim() !== '' && !fits(text) && (left || !(read(text) <= max));
  return (
    <TextInput
      label={`${label}${unit ? ` (${unit})` : ''}`}
      inputMode="decimal"
      autoComplete="off"
      placeholder={UNKNOWN}
      value={text}
      onBlur={() => setLeft(true)}
      error={wrong ? `A number from ${min} to ${max}; until then ${UNKNOWN}` : undefined}
      onChange={(event) => {
        const now = event.currentTarget.value;
        setTyped(now);
        setLeft(false);
        onChange(fits(now) ? read(now) : undefined);
      }}
    />
  );
}

export function FactInput({ fact, facts, onChange }: Props): ReactNode {
  const definition: FactDefinition = FACTS[fact];
  const set = (value: unknown) => onChange(withFact(facts, fact, value));
  const value = facts[fact];
  if (definition.type === 'number') return <NumberFact definition={definition} value={value as number | undefined} onChange={set} />;
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
