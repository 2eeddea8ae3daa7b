// Somebody who has no password yet: a mail with a link lets the person choose one.
import type { ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import type { Person } from '@backsight/contract/people';
import { invitePerson } from '../../api/people.ts';
import { Follows } from '../../ui/Follows.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useSend } from '../../ui/useSend.ts';

export function Invite({ person }: { person: Person }): ReactNode {
  const invite = useSend(invitePerson, { refresh: ['people'], said: `A mail with a link to choose a password goes to ${person.email}.` });
  return (
    <>
      <ProblemNote of={invite.error} />
      <Group mb="md">
        <span>{person.name} cannot sign in yet.</span>
        <Button variant="default" loading={invite.isPending} onClick={() => invite.mutate({ id: person.id })}>
          Send an invitation
        </Button>
        <Follows>The link is good for three days, and opens once.</Follows>
      </Group>
    </>
  );
}
