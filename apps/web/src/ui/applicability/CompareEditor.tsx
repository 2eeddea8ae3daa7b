// Edits one comparison of a fact of the property: which fact, how it is compared, with what.
import type { ReactNode } from 'react';
import { Checkbox, Group, NativeSelect, NumberInput } from '@mantine/core';
import type { Comparison } from '@backsight/domain/shared/applicability';
import { FACTS, type FactKey } from '@backsight/domain/shared/facts';
import { COMPARISONS, definitionOf, freshCompare, freshValue, type CompareRule } from './rules.ts';

type Props = { rule: CompareRule; onChange: (rule: CompareRule) => void };

const FACT_OPTIONS = Object.entries(FACTS).map(([value, { label }]) => ({ value, label }));
const optionsOf = (words: Record<string, string>) => Object.entries(words).map(([value, label]) => ({ value, label }));

export function CompareEditor({ rule, onChange }: Props): ReactNode {
  const comparisons = COMPARISONS[definitionOf(rule.fact).type];
  const compareBy = (compare: Comparison) =>
    onChange({
      ...rule,
      compare,
      value: compare === 'isOneOf' || rule.compare === 'isOneOf' ? freshValue(rule.fact, compare) : rule.value,
    });
  return (
    <Group gap="xs" align="flex-end">
      <NativeSelect
        label="Fact"
        data={FACT_OPTIONS}
        value={rule.fact}
        onChange={(event) => onChange(freshCompare(event.currentTarget.value as FactKey))}
      />
      {Object.keys(comparisons).length > 1 ? (
        <NativeSelect
          label="Compared"
          data={optionsOf(comparisons)}
          value={rule.compare}
          onChange={(event) => compareBy(event.currentTarget.value as Comparison)}
        />
      ) : null}
      <ValueEditor rule={rule} onChange={onChange} />
    </Group>
  );
}

function ValueEditor({ rule, onChange }: Props): ReactNode {
  const definition = definitionOf(rule.fact);
  if (definition.type === 'number') {
    const label = definition.unit === '' ? 'Number' : definition.unit;
    return (
      <NumberInput
        label={label}
        w={130}
        hideControls
        thousandSeparator={rule.fact === 'yearBuilt' ? '' : ','}
        value={rule.value as number}
        onChange={(value) => onChange({ ...rule, value: Number(value) })}
      />
    );
  }
  if (definition.type === 'yesNo') {
    return (
      <NativeSelect
        label="Answer"
        data={['yes', 'no']}
        value={rule.value === true ? 'yes' : 'no'}
        onChange={(event) => onChange({ ...rule, value: event.currentTarget.value === 'yes' })}
      />
    );
  }
  if (rule.compare !== 'isOneOf')
    return (
      <NativeSelect
        label="Value"
        data={optionsOf(definition.options)}
        value={String(rule.value)}
        onChange={(event) => onChange({ ...rule, value: event.currentTarget.value })}
      />
    );
  return (
    <Checkbox.Group label="Values" value={[...(rule.value as readonly string[])]} onChange={(value) => onChange({ ...rule, value })}>
      <Group gap="sm">
        {optionsOf(definition.options).map((option) => (
          <Checkbox key={option.value} {...option} />
        ))}
      </Group>
    </Checkbox.Group>
  );
}
