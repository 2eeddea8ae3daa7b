// Edits how a step is recorded, by kind of evidence.
import type { ReactNode } from 'react';
import { Button, Group, NativeSelect, NumberInput, Select, SimpleGrid, Stack, TextInput } from '@mantine/core';
import type { Evidence } from '@backsight/domain/procedures/step';

type Props = { evidence: Evidence; fixed: boolean; titles: Readonly<Record<string, string>>; onChange: (evidence: Evidence) => void };
type Kind = Evidence['kind'];
type Measured = Extract<Evidence, { unit: string }>;

const KINDS: Record<Kind, string> = {
  confirm: 'a confirmation',
  reading: 'a reading',
  difference: 'two readings and their difference',
  count: 'a count',
  choice: 'a choice',
  note: 'a note',
  photo: 'a photo',
};

const FRESH: Record<Kind, Evidence> = {
  confirm: { kind: 'confirm' },
  reading: { kind: 'reading', unit: '' },
  difference: { kind: 'difference', unit: '', firstLabel: '', secondLabel: '' },
  count: { kind: 'count', of: '' },
  choice: {
    kind: 'choice',
    options: [
      { key: 'yes', label: 'yes' },
      { key: 'no', label: 'no' },
    ],
  },
  note: { kind: 'note', prompt: '' },
  photo: { kind: 'photo', of: '' },
};

export function EvidenceEditor({ evidence, fixed, titles, onChange }: Props): ReactNode {
  return (
    <Stack gap="sm">
      <NativeSelect
        label="Record"
        maw={320}
        disabled={fixed}
        data={Object.entries(KINDS).map(([value, label]) => ({ value, label }))}
        value={evidence.kind}
        onChange={(event) => onChange(FRESH[event.currentTarget.value as Kind])}
      />
      {'unit' in evidence ? <MeasuredEditor evidence={evidence} onChange={onChange} /> : null}
      {evidence.kind === 'note' ? (
        <TextInput
          label="What to write"
          value={evidence.prompt}
          onChange={(event) => onChange({ kind: 'note', prompt: event.currentTarget.value })}
        />
      ) : null}
      {evidence.kind === 'photo' ? (
        <TextInput
          label="What it has to show"
          value={evidence.of}
          onChange={(event) => onChange({ kind: 'photo', of: event.currentTarget.value })}
        />
      ) : null}
      {evidence.kind === 'count' ? (
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <TextInput label="Count of" value={evidence.of} onChange={(event) => onChange({ ...evidence, of: event.currentTarget.value })} />
          <Select
            label="Must equal the count of"
            clearable
            searchable
            data={Object.entries(titles).map(([value, label]) => ({ value, label }))}
            value={evidence.mustMatch ?? null}
            onChange={(key) => onChange({ kind: 'count', of: evidence.of, ...(key === null ? {} : { mustMatch: key }) })}
          />
        </SimpleGrid>
      ) : null}
      {evidence.kind === 'choice' ? (
        <ChoiceEditor options={evidence.options} onOptions={(options) => onChange({ kind: 'choice', options })} />
      ) : null}
    </Stack>
  );
}

/** Leaves out a bound or hint that was emptied. */
const without = (evidence: Measured, name: 'expectedFrom' | 'expectedTo' | 'hint', value: string | number): Measured => {
  const { [name]: _, ...rest } = evidence;
  return (value === '' ? rest : { ...rest, [name]: value }) as Measured;
};

function MeasuredEditor({ evidence, onChange }: { evidence: Measured; onChange: (evidence: Evidence) => void }): ReactNode {
  return (
    <SimpleGrid cols={{ base: 1, xs: 3 }}>
      <TextInput label="Unit" value={evidence.unit} onChange={(event) => onChange({ ...evidence, unit: event.currentTarget.value })} />
      <NumberInput
        label="Expected from"
        value={evidence.expectedFrom ?? ''}
        onChange={(value) => onChange(without(evidence, 'expectedFrom', value))}
        hideControls
      />
      <NumberInput
        label="Expected to"
        value={evidence.expectedTo ?? ''}
        onChange={(value) => onChange(without(evidence, 'expectedTo', value))}
        hideControls
      />
      {evidence.kind === 'difference' ? (
        <>
          <TextInput
            label="First reading"
            value={evidence.firstLabel}
            onChange={(event) => onChange({ ...evidence, firstLabel: event.currentTarget.value })}
          />
          <TextInput
            label="Second reading"
            value={evidence.secondLabel}
            onChange={(event) => onChange({ ...evidence, secondLabel: event.currentTarget.value })}
          />
        </>
      ) : null}
      <TextInput
        label="Hint"
        value={evidence.hint ?? ''}
        onChange={(event) => onChange(without(evidence, 'hint', event.currentTarget.value))}
      />
    </SimpleGrid>
  );
}

type Option = { key: string; label: string };

function ChoiceEditor({ options, onOptions }: { options: readonly Option[]; onOptions: (options: Option[]) => void }): ReactNode {
  const relabel = (at: number, label: string) => onOptions(options.map((option, place) => (place === at ? { ...option, label } : option)));
  const fresh = (): Option => {
    let n = options.length + 1;
    while (options.some(({ key }) => key === `option_${n}`)) n += 1;
    return { key: `option_${n}`, label: '' };
  };
  return (
    <>
      {options.map((option, at) => (
        <Group key={option.key} gap="xs" align="flex-end">
          <TextInput label={`Option ${at + 1}`} value={option.label} onChange={(event) => relabel(at, event.currentTarget.value)} />
          {options.length > 2 ? (
            <Button
              variant="default"
              size="compact-sm"
              mb={6}
              aria-label={`Remove option ${at + 1}`}
              onClick={() => onOptions(options.filter((_, place) => place !== at))}
            >
              Remove
            </Button>
          ) : null}
        </Group>
      ))}
      <div>
        <Button variant="default" size="compact-sm" onClick={() => onOptions([...options, fresh()])}>
          Add an option
        </Button>
      </div>
    </>
  );
}
