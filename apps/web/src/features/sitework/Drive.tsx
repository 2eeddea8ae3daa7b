// The way to a visit: setting out and being there with one touch each, and both times corrected afterwards.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { z } from 'zod';
import type { dayVisit } from '@backsight/contract/sitework';
import { useMe } from '../../api/people.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { clockText } from '../../ui/time.ts';
import { DriveTimes } from './later.tsx';
import { useMark } from './useMark.ts';
import classes from './sitework.module.css';

type DayVisit = z.output<typeof dayVisit>;

/** Once the visit is over its times are only noted. */
export function Drive({ visit, over }: { visit: DayVisit; over: boolean }): ReactNode {
  const { zone } = useMe();
  const [correcting, setCorrecting] = useState(false);
  const { mark, isPending, error } = useMark(visit);
  const { setOutAt, arrivedAt } = visit.drive;
  const now = () => mark(setOutAt ? 'arrived' : 'set_out', new Date().toISOString());
  if (correcting) return <DriveTimes visit={visit} done={() => setCorrecting(false)} />;
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
