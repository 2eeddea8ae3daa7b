// What comes next, at the top of the page: one press opens the form that does it.
import type { ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Callback } from '@backsight/contract/callbacks';
import { afterQuery, lettersQuery } from '../../api/callbacksAfter.ts';
import { useMe } from '../../api/people.ts';
import { todayIn } from '../../ui/time.ts';
import { nextAct } from './next.ts';
import { useOneOpen } from './oneOpen.tsx';
import { judges } from './words.ts';

export function NextAct({ callback }: { callback: Callback }): ReactNode {
  const me = useMe();
  const after = useQuery(afterQuery(callback.id)).data;
  const letters = useQuery(lettersQuery(callback.id)).data;
  const today = todayIn(me.zone);
  const onJob = callback.job.pair.some(({ id }) => id === me.id);
  const viewer = { name: me.name, owner: me.roles.includes('owner'), judge: judges(me.roles), onJob };
  const next = after && letters ? nextAct(callback, viewer, { after, letters, today }) : null;
  const [, setOpen] = useOneOpen(next?.form ?? 'nothing');
  if (!next) return null;
  return (
    <Group mt="md" gap="sm" role="group" aria-label="Next">
      <span>
        Next: <strong>{next.words}</strong>
      </span>
      {next.form ? <Button onClick={() => setOpen(true)}>Do this now</Button> : null}
    </Group>
  );
}
