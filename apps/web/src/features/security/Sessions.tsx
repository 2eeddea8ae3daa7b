// Where one is signed in, and ending that elsewhere with the own password.
import { useState, type ReactNode } from 'react';
import { Box, Button } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import type { Security } from '@backsight/contract/people/security';
import { endSessions, securityQuery } from '../../api/security.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { saved } from '../../ui/saved.ts';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { WithPassword } from '../../ui/WithPassword.tsx';
import { deviceOf } from './device.ts';

type Session = Security['sessions'][number];

export function Sessions({ sessions }: { sessions: readonly Session[] }): ReactNode {
  const queries = useQueryClient();
  /** One session, or all but this one. */
  const [ending, setEnding] = useState<Session | 'others' | null>(null);
  const columns: Column<Session>[] = [
    { key: 'device', head: 'Where', cell: ({ agent, here }) => `${deviceOf(agent)}${here ? ', here, now' : ''}` },
    { key: 'since', head: 'Since', cell: ({ beganAt }) => <When at={beganAt} /> },
    { key: 'seen', head: 'Last used', cell: ({ lastSeenAt }) => <When at={lastSeenAt} /> },
    {
      key: 'end',
      head: 'End it',
      cell: (session) =>
        session.here ? (
          'by signing out'
        ) : (
          <Button
            variant="default"
            size="compact-sm"
            aria-label={`End the session on ${deviceOf(session.agent)}`}
            onClick={() => setEnding(session)}
          >
            End
          </Button>
        ),
    },
  ];
  const all =
    sessions.length > 2 ? (
      <Button variant="default" onClick={() => setEnding('others')}>
        End all but this one
      </Button>
    ) : null;
  const end = async ({ password }: { password: string }) => {
    await endSessions({ password, ...(ending === 'others' || ending === null ? {} : { id: ending.id }) });
    saved(ending === 'others' ? 'You are signed in here alone.' : 'That session has ended.');
    await queries.invalidateQueries({ queryKey: securityQuery.queryKey });
  };
  return (
    <Section title="Where you are signed in" actions={all}>
      {ending ? (
        <Box mb="md">
          <WithPassword scope="end" act={ending === 'others' ? 'End them' : 'End it'} send={end} onBack={() => setEnding(null)}>
            {ending === 'others'
              ? 'Every session but this one ends.'
              : `The session on ${deviceOf(ending.agent)} ends. Was it not you? Then change your password too.`}
          </WithPassword>
        </Box>
      ) : null}
      <DataTable caption="Sessions" columns={columns} rows={sessions} rowKey={({ id }) => id} />
    </Section>
  );
}
