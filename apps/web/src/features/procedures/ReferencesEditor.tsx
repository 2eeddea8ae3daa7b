// The published standards, codes and customs that a step rests on, each with its edition and whether it was read.
import type { ReactNode } from 'react';
import { Button, Fieldset, NativeSelect, SimpleGrid, Stack, TextInput } from '@mantine/core';
import type { StepReference } from '@backsight/domain/procedures/step';

type Props = { references: readonly StepReference[]; onChange: (references: StepReference[]) => void };

const STATUS = { found: 'read in the text', 'from memory': 'from memory: to be read', 'common practice': 'common practice' };
const BLANK: StepReference = { title: '', section: '', edition: '', status: 'from memory' };

export function ReferencesEditor({ references, onChange }: Props): ReactNode {
  const put = (at: number, part: Partial<StepReference>) =>
    onChange(references.map((one, place) => (place === at ? { ...one, ...part } : one)));
  return (
    <Fieldset legend="References">
      <Stack gap="sm">
        {references.map((one, at) => (
          <SimpleGrid key={at} cols={{ base: 1, xs: 2 }} role="group" aria-label={`Reference ${at + 1}`}>
            <TextInput label="Title" value={one.title} onChange={(event) => put(at, { title: event.currentTarget.value })} />
            <TextInput
              label="Section, or what it says"
              value={one.section}
              onChange={(event) => put(at, { section: event.currentTarget.value })}
            />
            <TextInput
              label="Edition"
              description="A year, or that it was not noted"
              value={one.edition}
              onChange={(event) => put(at, { edition: event.currentTarget.value })}
            />
            <NativeSelect
              label="How it is known"
              description="What is from memory is read again before anybody relies on it"
              data={Object.entries(STATUS).map(([value, label]) => ({ value, label }))}
              value={one.status}
              onChange={(event) => put(at, { status: event.currentTarget.value as StepReference['status'] })}
            />
            <div>
              <Button
                variant="default"
                size="compact-sm"
                aria-label={`Remove reference ${at + 1}`}
                onClick={() => onChange(references.filter((_, place) => place !== at))}
              >
                Remove
              </Button>
            </div>
          </SimpleGrid>
        ))}
        <div>
          <Button variant="default" size="compact-sm" onClick={() => onChange([...references, BLANK])}>
            Add a reference
          </Button>
        </div>
      </Stack>
    </Fieldset>
  );
}
