// Parts of the intake that only some callbacks have: the mail it came by, the legal paper, who caught a near-miss, and the earlier ones here.
import type { ReactNode } from 'react';
import { NativeSelect, Radio, SimpleGrid, Stack, Text, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { KINDS, STATES } from '@backsight/contract/callbacks';
import { CAUGHT_BY, SYSTEMS, type EarlierCallback } from '@backsight/contract/callbacks/intake';
import { earlierQuery, stepsQuery } from '../../api/callbackIntake.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import type { Fields } from '../../ui/useFields.ts';
import { When } from '../../ui/When.tsx';
import type { IntakeValues } from './intakeFields.ts';
import { options } from './words.ts';

type Part = { fields: Fields<IntakeValues> };

/** Its problems come under the names of the body that is sent. */
export function MailPart({ fields }: Part): ReactNode {
  const at = (name: 'sender' | 'cameAt' | 'reference') => ({ ...fields.text(name), error: fields.text(`mail.${name}`).error });
  return (
    <>
      <Text>The clocks run from when the mail came. A mail that is logged already is refused with its number.</Text>
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <TextInput {...at('sender')} type="email" required />
        <TextInput {...at('cameAt')} type="datetime-local" required />
      </SimpleGrid>
      <TextInput {...at('reference')} required description="The line Message-ID of the mail; where you cannot see it, its subject" />
    </>
  );
}

export const PaperPart = ({ fields }: Part): ReactNode => (
  <SimpleGrid cols={{ base: 1, xs: 3 }}>
    <TextInput {...fields.text('servedOn')} type="date" required />
    <TextInput {...fields.text('serviceWay')} required />
    <TextInput {...fields.text('deadlineOn')} type="date" required />
  </SimpleGrid>
);

export function CaughtPart({ fields, jobId }: Part & { jobId: string }): ReactNode {
  const steps = useQuery(stepsQuery(jobId));
  return (
    <SimpleGrid cols={{ base: 1, xs: 2 }}>
      <NativeSelect {...fields.text('caughtBy')} data={[{ value: '', label: 'not said' }, ...options(CAUGHT_BY)]} />
      <NativeSelect
        {...fields.text('stepKey')}
        data={[
          { value: '', label: 'not known' },
          ...(steps.data ?? []).map(({ stepKey, title, system }) => ({
            value: stepKey,
            label: `${system.replaceAll('_', ' ')}: ${title}`,
          })),
        ]}
      />
    </SimpleGrid>
  );
}

/** Nothing is shown while nothing was brought before. Those of the same system come first. */
export function EarlierHere({ fields, jobId }: Part & { jobId: string }): ReactNode {
  const earlier = useQuery(earlierQuery(jobId));
  const { system, link } = fields.values;
  const list = [...(earlier.data ?? [])].sort((a, b) => Number(b.system === system) - Number(a.system === system));
  if (list.length === 0) return <ProblemNote of={earlier.error} />;
  return (
    <Radio.Group
      label="Earlier ones at this property: is this new?"
      value={link}
      onChange={(value) => fields.set('link', value)}
      error={fields.text('link.to').error}
    >
      <Stack gap="xs" mt="xs">
        <Radio value="" label="It is new" />
        {list.map((one) => (
          <Earlier key={one.id} one={one} same={one.system === system} />
        ))}
      </Stack>
    </Radio.Group>
  );
}

const Earlier = ({ one, same }: { one: EarlierCallback; same: boolean }): ReactNode => (
  <div style={{ borderInlineStart: '3px solid var(--bs-line)', paddingInlineStart: 'var(--bs-space-5)' }}>
    <div>
      <strong>{`Number ${one.number}`}</strong>
      {`: ${KINDS[one.kind]}, ${STATES[one.state]}, ${(SYSTEMS as Record<string, string>)[one.system] ?? one.system}${same ? ' (same system)' : ''}, ${one.place}, `}
      <When at={one.receivedAt} />
    </div>
    <div style={{ display: '-webkit-box', WebkitLineClamp: 2, WebkitBoxOrient: 'vertical', overflow: 'hidden' }}>{one.words}</div>
    <Stack gap={4} mt={4}>
      {one.state === 'closed' ? null : <Radio value={`duplicate ${one.id}`} label={`The same as number ${one.number}, told once more`} />}
      <Radio value={`repeat ${one.id}`} label={`It came back after number ${one.number}`} />
    </Stack>
  </div>
);
