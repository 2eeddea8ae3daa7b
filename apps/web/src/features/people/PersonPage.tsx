// One person: what is on file, and for the owner the form that changes it.
import type { ReactNode } from 'react';
import { Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { ROLES, type Person } from '@backsight/contract/people';
import { personQuery, useMe } from '../../api/people.ts';
import { Details } from '../../ui/Details.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day } from '../../ui/When.tsx';
import { ChangePerson } from './ChangePerson.tsx';
import { PersonFile } from './file/PersonFile.tsx';
import { Invite } from './Invite.tsx';
import { mayAdd, mayChange, standing } from './words.ts';

const route = getRouteApi('/shell/people/$personId');

export function PersonPage(): ReactNode {
  const me = useMe();
  const { personId } = route.useParams();
  const { change } = route.useSearch();
  const { data: person, error, isPending } = useQuery(personQuery(personId));
  const changing = Boolean(change) && mayChange(me.roles);
  const actions = person && !changing ? <Actions personId={personId} own={personId === me.id} owner={mayChange(me.roles)} /> : undefined;
  return (
    <Page title={person ? (changing ? `Change ${person.name}` : person.name) : 'Person'} width="narrow" actions={actions}>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {person && !changing && !person.canSignIn && person.endedOn === null && mayAdd(me.roles) ? <Invite person={person} /> : null}
      {person ? changing ? <ChangePerson key={person.id} person={person} /> : <OnFile person={person} /> : null}
      {person && !changing ? <PersonFile personId={person.id} inspects={person.roles.includes('inspector')} /> : null}
      {changing ? null : (
        <p>
          <ButtonLink to="/people" variant="default" size="compact-sm">
            Back to people
          </ButtonLink>
        </p>
      )}
    </Page>
  );
}

function Actions({ personId, own, owner }: { personId: string; own: boolean; owner: boolean }): ReactNode {
  return (
    <Group gap="xs">
      {own ? (
        <ButtonLink to="/security" variant="default">
          Signing in
        </ButtonLink>
      ) : null}
      {own || owner ? (
        <ButtonLink to="/people/$personId/password" params={{ personId }} variant="default">
          {own ? 'Change your password' : 'New password'}
        </ButtonLink>
      ) : null}
      {owner ? (
        <ButtonLink to="/personal-data" search={{ subject: 'person', id: personId }} variant="default">
          Personal data
        </ButtonLink>
      ) : null}
      {owner ? (
        <ButtonLink to="/people/$personId" params={{ personId }} search={{ change: true }}>
          Change
        </ButtonLink>
      ) : null}
    </Group>
  );
}

function OnFile({ person }: { person: Person }): ReactNode {
  return (
    <Details
      rows={[
        ['Roles', person.roles.map((role) => ROLES[role]).join(', ') || 'none'],
        ['In a pair', standing(person)],
        [
          'Phone',
          <a key="phone" href={`tel:${person.phone}`}>
            {person.phone}
          </a>,
        ],
        [
          'E-mail',
          <a key="email" href={`mailto:${person.email}`}>
            {person.email}
          </a>,
        ],
        ['Home address', person.homeAddress],
        ['Started', <Day key="started" day={person.startedOn} />],
        ...(person.endedOn ? [['Leaves', <Day key="ended" day={person.endedOn} />] as const] : []),
      ]}
    />
  );
}
