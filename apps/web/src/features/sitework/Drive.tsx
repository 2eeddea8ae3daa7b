// The way to a visit: setting out and being there with one touch each, and both times corrected afterwards.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import type { z } from 'zod';
import type { dayVisit } from '@backsight/contract/sitework';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { markDrive } from '../../api/travel.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { clockText, localInput, toInstant } from '../../ui/time.ts';
import { useSend } from '../../ui/useSend.ts';
import classes from './sitework.module.css';

type DayVisit = z.output<typeof dayVisit>;
type Kind = 'set_out' | 'arrived';

function useMark(visit: DayVisit, then?: () => void) {
  const me = useMe();
  const send = useSend(markDrive, { refresh: ['my-day'], said: 'The time is noted.', then });
  const mark = (kind: Kind, at: string) => send.mutate({ visitId: visit.id, id: newId(), key: newId(), personId: me.id, kind, at });
  return { ...send, mark };
}

/** Once the visit is over its times are only noted. */
export function Drive({ visit, over }: { visit: DayVisit; over: boolean }): ReactNode {
  const { zone } = useMe();
  const [correcting, setCorrecting] = useState(false);
  const { mark, isPending, error } = useMark(visit);
  const { setOutAt, arrivedAt } = visit.drive;
  const now = () => mark(setOutAt ? 'arrived' : 'set_out', new Date().toISOString());
  if (correcting) return <Correct visit={visit} done={() => setCorrecting(false)} />;
  return (
    <>
      <ProblemNote of={error} />
      {setOutAt || arrivedAt ? (
        <p>
          {setOutAt ? `Set out ${clockText(setOutAt, zone)}` : 'Setting out not noted'}
          {arrivedAt ? `, there ${clockText(arrivedAt, zone)}` : ''}
        </p>
      ) : null}
      <div className={classes.acts}>
        {arrivedAt || over ? null : (
          <Button size="lg" variant="default" loading={isPending} onClick={now}>
            {setOutAt ? 'I am there' : 'I set out now'}
          </Button>
        )}
        <Button size="sm" variant="subtle" onClick={() => setCorrecting(true)}>
          {setOutAt || arrivedAt ? 'Correct the times' : 'Note the times'}
        </Button>
      </div>
    </>
  );
}

/** Local times of the visit's day. What was not changed is not sent again. */
function Correct({ visit, done }: { visit: DayVisit; done: () => void }): ReactNode {
  const { zone } = useMe();
  const timeOf = (at: string | null) => (at ? localInput(new Date(at), zone).slice(11) : '');
  const { setOutAt, arrivedAt } = visit.drive;
  const [times, setTimes] = useState({ set_out: timeOf(setOutAt), arrived: timeOf(arrivedAt) });
  const second = useMark(visit, done);
  const changed = (kind: Kind, before: string | null) => times[kind] !== '' && times[kind] !== timeOf(before);
  const instant = (kind: Kind) => toInstant(`${visit.day}T${times[kind]}`, zone);
  const first = useMark(visit, () => (changed('arrived', arrivedAt) ? second.mark('arrived', instant('arrived')) : done()));
  const save = () => {
    if (changed('set_out', setOutAt)) first.mark('set_out', instant('set_out'));
    else if (changed('arrived', arrivedAt)) second.mark('arrived', instant('arrived'));
    else done();
  };
  const input = (kind: Kind, label: string) => (
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
