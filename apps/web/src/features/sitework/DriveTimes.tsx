// Both times of the way to a visit, corrected afterwards.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import type { z } from 'zod';
import type { dayVisit } from '@backsight/contract/sitework';
import { useMe } from '../../api/people.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { localInput, toInstant } from '../../ui/time.ts';
import { useMark, type DriveKind } from './useMark.ts';

type DayVisit = z.output<typeof dayVisit>;

/** Local times of the visit's day. What was not changed is not sent again. */
export function DriveTimes({ visit, done }: { visit: DayVisit; done: () => void }): ReactNode {
  const { zone } = useMe();
  const timeOf = (at: string | null) => (at ? localInput(new Date(at), zone).slice(11) : '');
  const { setOutAt, arrivedAt } = visit.drive;
  const [times, setTimes] = useState({ set_out: timeOf(setOutAt), arrived: timeOf(arrivedAt) });
  const second = useMark(visit, done);
  const changed = (kind: DriveKind, before: string | null) => times[kind] !== '' && times[kind] !== timeOf(before);
  const instant = (kind: DriveKind) => toInstant(`${visit.day}T${times[kind]}`, zone);
  const first = useMark(visit, () => (changed('arrived', arrivedAt) ? second.mark('arrived', instant('arrived')) : done()));
  const save = () => {
    if (changed('set_out', setOutAt)) first.mark('set_out', instant('set_out'));
    else if (changed('arrived', arrivedAt)) second.mark('arrived', instant('arrived'));
    else done();
  };
  const input = (kind: DriveKind, label: string) => (
    <TextInput
      label={label}
      type="time"
      value={times[kind]}
      onChange={(event) => setTimes({ ...times, [kind]: event.currentTarget.value })}
    />
  );
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
    >
      <ProblemNote of={first.error ?? second.error} />
      <Group align="flex-end" mt="xs">
        {input('set_out', 'Set out')}
        {input('arrived', 'There')}
        <Button type="submit" loading={first.isPending || second.isPending}>
          Save
        </Button>
        <Button variant="default" onClick={done}>
          Leave it
        </Button>
      </Group>
    </form>
  );
}
