// Puts a draft in force from a day, throws it away, or takes back what has not begun.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useNavigate } from '@tanstack/react-router';
import type { SchedulePage } from '@backsight/contract/fees/schedules';
import { dropSchedule, putInForce } from '../../api/feeSetUp.ts';
import { useMe } from '../../api/people.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { todayIn } from '../../ui/time.ts';
import { useSend } from '../../ui/useSend.ts';

export function ScheduleActs({ schedule: { id, version, state, inForceFrom } }: { schedule: SchedulePage }): ReactNode {
  const { zone } = useMe();
  const navigate = useNavigate();
  const [asked, setAsked] = useState<'force' | 'drop' | null>(null);
  const [fromDay, setFromDay] = useState(() => todayIn(zone));
  const close = () => setAsked(null);
  const force = useSend(putInForce, { refresh: ['fee-schedules'], said: 'The schedule is put in force.', then: close });
  const drop = useSend(dropSchedule, {
    refresh: ['fee-schedules'],
    said: 'It was taken back.',
    then: () => void navigate({ to: '/fee-schedules' }),
  });
  const ahead = state === 'in_force' && inForceFrom !== null && Date.parse(inForceFrom) > Date.now();
  if (state !== 'draft' && !ahead) return null;
  return (
    <Group mb="md">
      {state === 'draft' ? <Button onClick={() => setAsked('force')}>Put it in force</Button> : null}
      <Button variant="default" onClick={() => setAsked('drop')}>
        {state === 'draft' ? 'Throw the draft away' : 'Take it back'}
      </Button>
      <ConfirmDialog
        opened={asked === 'force'}
        title="Put in force"
        act="Put in force"
        busy={force.isPending}
        error={force.error}
        onClose={close}
        onConfirm={() => force.mutate({ id, version, fromDay })}
      >
        <p>
          What was saved last counts. Jobs booked from this day on are priced by it; jobs booked before keep theirs. It cannot be edited any
          more.
        </p>
        <TextInput label="From" type="date" value={fromDay} onChange={(event) => setFromDay(event.currentTarget.value)} data-autofocus />
      </ConfirmDialog>
      <ConfirmDialog
        opened={asked === 'drop'}
        title="Take back"
        act={state === 'draft' ? 'Throw away' : 'Take back'}
        busy={drop.isPending}
        error={drop.error}
        onClose={close}
        onConfirm={() => drop.mutate({ id, version })}
      >
        <p>{state === 'draft' ? 'The draft is gone for good.' : 'It never comes into force; it stays on file as withdrawn.'}</p>
      </ConfirmDialog>
    </Group>
  );
}
