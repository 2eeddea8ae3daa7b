// Picking a start: from which day on, the ranked starts with their people, and one act with the chosen one.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import type { Starts } from '@backsight/contract/schedule';
import { Loading } from './Loading.tsx';
import { ProblemNote } from './ProblemNote.tsx';
import { StartChoice, startKey } from './StartChoice.tsx';

export type PickedStart = { startsAt: string; first: string; second: string | null };
type Props = {
  fromDay: string;
  onFromDay: (day: string) => void;
  starts: Starts | undefined;
  pending: boolean;
  error: unknown;
  act: string;
  busy: boolean;
  onPick: (start: PickedStart) => void;
  leave: string;
  onLeave: () => void;
  /** What is to know of the start that is chosen. */
  about?: ((start: PickedStart) => ReactNode) | undefined;
};

export function PickStart({ fromDay, onFromDay, starts, pending, error, act, busy, onPick, leave, onLeave, about }: Props): ReactNode {
  const [start, setStart] = useState<PickedStart | null>(null);
  return (
    <>
      <TextInput
        label="From"
        type="date"
        value={fromDay}
        onChange={(event) => event.currentTarget.value && onFromDay(event.currentTarget.value)}
        maw="12rem"
        mb="sm"
        autoFocus
      />
      <ProblemNote of={error} />
      {pending ? <Loading /> : null}
      {starts ? (
        <StartChoice
          starts={starts}
          chosen={start ? startKey(start) : null}
          onChoose={({ startsAt, first, second }) => setStart({ startsAt, first, second })}
        />
      ) : null}
      {start && about ? about(start) : null}
      <Group mt="sm">
        <Button loading={busy} disabled={start === null} onClick={() => start && onPick(start)}>
          {act}
        </Button>
        <Button variant="default" onClick={onLeave}>
          {leave}
        </Button>
      </Group>
    </>
  );
}
