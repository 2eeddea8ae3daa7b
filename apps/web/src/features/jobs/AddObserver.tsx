// Lets somebody come along on a visit who counts toward no rule.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { OBSERVER_REASONS, type ObserverReason } from '@backsight/contract/schedule/crew';
import { addObserver, removeObserver } from '../../api/crew.ts';
import { newId } from '../../api/ids.ts';
import { peopleQuery } from '../../api/people.ts';
import { Follows } from '../../ui/Follows.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

export function AddObserver({ visitId, held }: { visitId: string; held: boolean }): ReactNode {
  const [open, setOpen] = useState(false);
  const [key, setKey] = useState(newId);
  const [personId, setPersonId] = useState('');
  const [reason, setReason] = useState<ObserverReason>('trainee');
  const people = useQuery({ ...peopleQuery, enabled: open });
  const opened = () => {
    setKey(newId());
    setOpen(false);
  };
  const add = useChange(addObserver, held ? 'Noted.' : 'Noted; the client is told.', opened, (sent) =>
    held ? () => removeObserver({ visitId, personId: sent.personId }) : null,
  );
  if (!open)
    return (
      <Button size="compact-md" variant="default" onClick={() => setOpen(true)}>
        Somebody comes along
      </Button>
    );
  const inspectors = (people.data ?? []).filter(({ roles, endedOn }) => roles.includes('inspector') && endedOn === null);
  return (
    <div className={classes.inline}>
      <ProblemNote of={add.error ?? people.error} />
      <Group gap="sm" align="flex-end">
        <NativeSelect
          label="Who comes along"
          value={personId}
          onChange={(event) => setPersonId(event.currentTarget.value)}
          data={[{ value: '', label: '' }, ...inspectors.map(({ id, name }) => ({ value: id, label: name }))]}
        />
        <NativeSelect
          label="As"
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value as ObserverReason)}
          data={Object.entries(OBSERVER_REASONS).map(([value, label]) => ({ value, label }))}
        />
        <Button loading={add.isPending} disabled={personId === ''} onClick={() => add.mutate({ visitId, personId, reason, key })}>
          Add to the visit
        </Button>
        <Button variant="default" onClick={() => setOpen(false)}>
          Leave it
        </Button>
        {held ? null : <Follows>The client is told by mail at once who comes along.</Follows>}
      </Group>
    </div>
  );
}
