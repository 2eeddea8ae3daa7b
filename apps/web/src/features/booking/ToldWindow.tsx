// What the client is told of the chosen start: the very minute, or a window in which plans may still move it.
import type { ReactNode } from 'react';
import { Group, NativeSelect, TextInput } from '@mantine/core';
import { DateTime } from 'luxon';
import { useMe } from '../../api/people.ts';
import { clockText, localInput } from '../../ui/time.ts';
import type { Draft } from './draft.ts';

type Props = { draft: Draft; change: (part: Partial<Draft>) => void };
const MINUTES = 30;

export function ToldWindow({ draft: { start, told }, change }: Props): ReactNode {
  const { zone } = useMe();
  if (!start) return null;
  const clock = (minutes: number): string => localInput(DateTime.fromISO(start.startsAt, { zone }).plus({ minutes }), zone).slice(11);
  const choose = (way: string) => change({ told: way === 'window' ? { from: clock(-MINUTES), until: clock(MINUTES) } : null });
  return (
    <Group gap="sm" align="flex-end" mb="sm">
      <NativeSelect
        label="Told the client"
        value={told ? 'window' : 'start'}
        onChange={(event) => choose(event.currentTarget.value)}
        data={[
          { value: 'start', label: `exactly ${clockText(start.startsAt, zone)}` },
          { value: 'window', label: 'between two times' },
        ]}
      />
      {told ? (
        <>
          <TextInput
            label="Earliest"
            type="time"
            value={told.from}
            required
            onChange={(event) => change({ told: { ...told, from: event.currentTarget.value } })}
          />
          <TextInput
            label="Latest"
            type="time"
            value={told.until}
            required
            onChange={(event) => change({ told: { ...told, until: event.currentTarget.value } })}
          />
        </>
      ) : null}
    </Group>
  );
}
