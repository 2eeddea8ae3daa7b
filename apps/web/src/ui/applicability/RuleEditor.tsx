// Edits an applies-when rule piece by piece, with the rule in plain English beside it.
import type { ReactNode } from 'react';
import { Button, Fieldset, Group, NativeSelect, Stack, TextInput } from '@mantine/core';
import type { Applicability } from '@backsight/domain/shared/applicability';
import { inWords } from '@backsight/domain/shared/english';
import { checkRule } from '@backsight/domain/shared/rule-check';
import { CompareEditor } from './CompareEditor.tsx';
import { freshCompare, KINDS, kindOf, turnedInto, type Kind } from './rules.ts';

type Props = {
  legend: string;
  rule: Applicability;
  /** Names of the firm's services by key. */
  services: Readonly<Record<string, string>>;
  onChange: (rule: Applicability) => void;
};
type NodeProps = Omit<Props, 'legend'> & { depth: number; onRemove?: (() => void) | undefined };

/** Rules nested deeper than this are refused by the service. */
const DEEPEST = 6;
const OPTIONS = Object.entries(KINDS).map(([value, label]) => ({ value, label }));

export function RuleEditor({ legend, rule, services, onChange }: Props): ReactNode {
  const problems = checkRule(rule);
  return (
    <Fieldset legend={legend}>
      <p role="status" style={{ margin: '0 0 var(--bs-space-4)' }}>
        <strong>In words:</strong> {inWords(rule, services)}.
      </p>
      <Node rule={rule} services={services} onChange={onChange} depth={1} />
      {problems.length > 0 ? (
        <ul role="alert">
          {problems.map((problem) => (
            <li key={problem}>{problem}</li>
          ))}
        </ul>
      ) : null}
    </Fieldset>
  );
}

function Node({ rule, services, onChange, depth, onRemove }: NodeProps): ReactNode {
  const options = OPTIONS.filter(
    ({ value }) => (depth < DEEPEST - 1 || !['all', 'any', 'not'].includes(value)) && (depth === 1 || value !== 'always'),
  );
  return (
    <Stack gap="xs">
      <Group gap="xs" align="flex-end">
        <NativeSelect
          label={depth === 1 ? 'It applies' : 'Condition'}
          data={options}
          value={kindOf(rule)}
          onChange={(event) => onChange(turnedInto(event.currentTarget.value as Kind, rule, Object.keys(services)))}
        />
        {onRemove ? (
          <Button variant="default" size="compact-sm" mb={6} onClick={onRemove}>
            Remove this condition
          </Button>
        ) : null}
      </Group>
      <Inside rule={rule} services={services} onChange={onChange} depth={depth} />
    </Stack>
  );
}

function Inside({ rule, services, onChange, depth }: NodeProps): ReactNode {
  if ('fact' in rule) return <CompareEditor rule={rule} onChange={onChange} />;
  if ('service' in rule) {
    const data = Object.entries(services).map(([value, label]) => ({ value, label }));
    return (
      <NativeSelect
        label="Service"
        maw={320}
        data={rule.service in services ? data : [{ value: rule.service, label: rule.service || 'none' }, ...data]}
        value={rule.service}
        onChange={(event) => onChange({ service: event.currentTarget.value })}
      />
    );
  }
  if ('seasonFrom' in rule) {
    return (
      <Group gap="xs">
        <TextInput
          label="From (month-day)"
          w={140}
          value={rule.seasonFrom}
          onChange={(event) => onChange({ ...rule, seasonFrom: event.currentTarget.value })}
        />
        <TextInput
          label="To (month-day)"
          w={140}
          value={rule.seasonTo}
          onChange={(event) => onChange({ ...rule, seasonTo: event.currentTarget.value })}
        />
      </Group>
    );
  }
  if ('fromDay' in rule)
    return (
      <TextInput
        label="First day"
        type="date"
        w={180}
        value={rule.fromDay}
        onChange={(event) => onChange({ fromDay: event.currentTarget.value })}
      />
    );
  if ('not' in rule)
    return (
      <Nested>
        <Node rule={rule.not} services={services} depth={depth + 1} onChange={(not) => onChange({ not })} />
      </Nested>
    );
  if ('all' in rule) return <Parts parts={rule.all} services={services} depth={depth} onParts={(all) => onChange({ all })} />;
  return 'any' in rule ? <Parts parts={rule.any} services={services} depth={depth} onParts={(any) => onChange({ any })} /> : null;
}

const Nested = ({ children }: { children: ReactNode }): ReactNode => (
  <Stack gap="sm" ps="md" style={{ borderInlineStart: '2px solid var(--bs-edge)' }}>
    {children}
  </Stack>
);

type PartsProps = {
  parts: readonly Applicability[];
  services: Props['services'];
  depth: number;
  onParts: (parts: Applicability[]) => void;
};

function Parts({ parts, services, depth, onParts }: PartsProps): ReactNode {
  return (
    <Nested>
      {parts.map((part, at) => (
        <Node
          key={at}
          rule={part}
          services={services}
          depth={depth + 1}
          onChange={(next) => onParts(parts.map((one, place) => (place === at ? next : one)))}
          onRemove={parts.length > 1 ? () => onParts(parts.filter((_, place) => place !== at)) : undefined}
        />
      ))}
      <div>
        <Button variant="default" size="compact-sm" onClick={() => onParts([...parts, freshCompare('features')])}>
          Add a condition
        </Button>
      </div>
    </Nested>
  );
}
