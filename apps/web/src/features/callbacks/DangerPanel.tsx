// A danger on the page of its callback: who was alerted, who has it; and the mark itself, set or lifted with a reason.
import type { ReactNode } from 'react';
import { Alert, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Callback } from '@backsight/contract/callbacks';
import { dangerQuery, markSafety } from '../../api/callbackClocks.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Alerts } from './Alerts.tsx';
import { WordsAct } from './WordsAct.tsx';

export function DangerPanel({ callback: { id, safety, state } }: { callback: Callback }): ReactNode {
  const { data, error } = useQuery(dangerQuery(id));
  const open = state !== 'closed';
  return (
    <>
      {safety && open ? (
        <Alert color="red" title="Somebody may be in danger" mb="md">
          This jumps every queue. Call back at once. Danger to life: 911 comes first.
        </Alert>
      ) : null}
      <ProblemNote of={error} />
      {data ? <Alerts danger={data} /> : null}
      {open ? (
        <Group my={safety ? 'sm' : 0}>
          {safety ? (
            <WordsAct
              act="Nobody is in danger any more"
              label="How you know, and from whom"
              said="The mark was lifted."
              needed
              send={(words) => markSafety({ id, safety: false, words: words ?? '' })}
            />
          ) : (
            <WordsAct
              act="Somebody may be in danger"
              label="What is dangerous; who is on call is alerted at once"
              said="Marked. Who is on call is alerted."
              needed
              send={(words) => markSafety({ id, safety: true, words: words ?? '' })}
            />
          )}
        </Group>
      ) : null}
    </>
  );
}
