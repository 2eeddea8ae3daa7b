// What is said first to somebody in danger, in the words that an owner approved; and from what the danger comes.
import type { ReactNode } from 'react';
import { Alert, Checkbox, Stack, Text } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { adviceQuery } from '../../api/callbackIntake.ts';
import { firmQuery } from '../../api/firm.ts';
import { TextLink } from '../../ui/links.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { DANGERS, options, type Danger } from './words.ts';

type Props = { dangers: Danger[]; onChange: (dangers: Danger[]) => void };

export function SayNow({ dangers, onChange }: Props): ReactNode {
  return (
    <Stack gap="sm" role="group" aria-label="Danger">
      <Checkbox.Group label="From what?" value={dangers} onChange={(values) => onChange(values as Danger[])}>
        <Stack gap="xs" mt="xs">
          {options(DANGERS).map(({ value, label }) => (
            <Checkbox key={value} value={value} label={label} />
          ))}
        </Stack>
      </Checkbox.Group>
      <Words dangers={dangers} />
    </Stack>
  );
}

/** Of every danger as long as nobody said which. */
function Words({ dangers }: { dangers: readonly Danger[] }): ReactNode {
  const found = useQuery(adviceQuery);
  const phone = useQuery(firmQuery).data?.onCallPhone;
  const said = (found.data?.advice ?? []).filter(({ danger }) => dangers.length === 0 || dangers.includes(danger));
  return (
    <Alert title="Say this now" role="alert">
      <ProblemNote of={found.error} />
      {said.map(({ danger, words }) => (
        <Text key={danger} mb="xs">
          {said.length > 1 ? <strong>{`${DANGERS[danger].split(':')[0]}. `}</strong> : null}
          {words}
        </Text>
      ))}
      {phone ? (
        <Text>
          <strong>
            Then call whoever is on call: <span style={{ whiteSpace: 'nowrap' }}>{phone}</span>
          </strong>
        </Text>
      ) : null}
      {said.some(({ approved }) => approved === null) ? (
        <Text mt="xs">
          <small>
            No owner has approved these words yet. <TextLink to="/safety-advice">The firm’s advice in danger</TextLink>
          </small>
        </Text>
      ) : null}
    </Alert>
  );
}
