// Where one is signed in, and ending that elsewhere.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { Security } from '@backsight/contract/people/security';
import { endOtherSessions, endSession, securityQuery } from '../../api/security.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { deviceOf } from './device.ts';

type Session = Security['sessions'][number];

export function Sessions({ sessions }: { sessions: readonly Session[] }): ReactNode {
  const refresh = securityQuery.queryKey;
  const end = useSend(endSession, { refresh, said: 'That session has ended.' });
  const others = useSend(endOtherSessions, { refresh, said: 'You are signed in here alone.' });
  const columns: Column<Session>[] = [
    { key: 'device', head: 'Where', cell: ({ agent, here }) => `${deviceOf(agent)}${here ? ', here, now' : ''}` },
    { key: 'since', head: 'Since', cell: ({ beganAt }) => <When at={beganAt} /> },
    {
      key: 'end',
      head: 'End it',
      cell: ({ id, here, agent }) =>
        here ? (
          'by signing out'
        ) : (
          <Button
            variant="default"
            size="compact-sm"
            loading={end.isPending && end.variables.id === id}
            aria-label={`End the session on ${deviceOf(agent)}`}
            onClick={() => end.mutate({ id })}
          >
            End
          </Button>
        ),
    },
  ];
  const all =
    sessions.length > 2 ? (
      <Button variant="default" loading={others.isPending} onClick={() => others.mutate(null)}>
        End all but this one
      </Button>
    ) : null;
  return (
    <Section title="Where you are signed in" actions={all}>
      <ProblemNote of={end.error ?? others.error} />
      <DataTable caption="Sessions" columns={columns} rows={sessions} rowKey={({ id }) => id} />
    </Section>
  );
}
