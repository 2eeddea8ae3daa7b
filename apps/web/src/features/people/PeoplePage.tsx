// Everybody in the firm: search by name, phone or town, by role, and those who have left on demand. The URL holds the choice.
import type { ReactNode } from 'react';
import { Checkbox, Group, NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { ROLES, type Person, type Role } from '@backsight/contract/people';
import { peopleQuery, useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { todayIn } from '../../ui/time.ts';
import { hasLeft, matches, mayAdd, standing } from './words.ts';

const route = getRouteApi('/shell/people');

const COLUMNS: Column<Person>[] = [
  {
    key: 'name',
    head: 'Name',
    cell: (person) => (
      <TextLink to="/people/$personId" params={{ personId: person.id }}>
        {person.name}
      </TextLink>
    ),
  },
  { key: 'roles', head: 'Roles', cell: ({ roles }) => roles.map((role) => ROLES[role]).join(', ') || 'none' },
  {
    key: 'phone',
    head: 'Phone',
    oneLine: true,
    cell: ({ phone }) => (
      <a href={`tel:${phone}`} style={{ color: 'inherit' }}>
        {phone}
      </a>
    ),
  },
  { key: 'email', head: 'E-mail', cell: ({ email }) => email },
  { key: 'standing', head: 'In a pair', oneLine: true, cell: standing },
];

export function PeoplePage(): ReactNode {
  const me = useMe();
  const people = useQuery(peopleQuery);
  const search = route.useSearch();
  return (
    <Page
      title="People"
      about="Who works here, how to reach them and what they may do."
      actions={mayAdd(me.roles) ? <ButtonLink to="/people/new">Add a person</ButtonLink> : undefined}
    >
      <Choice />
      <ProblemNote of={people.error} />
      {people.isPending ? <Loading /> : null}
      {people.data ? (
        <List people={people.data.filter((person) => matches(person, search, todayIn(me.zone)))} all={people.data.length} />
      ) : null}
    </Page>
  );
}

function Choice(): ReactNode {
  const { q, role, left } = route.useSearch();
  const me = useMe();
  const people = useQuery(peopleQuery);
  const navigate = route.useNavigate();
  const anyLeft = people.data?.some((person) => hasLeft(person, todayIn(me.zone))) ?? false;
  const choose = (change: { q?: string; role?: Role; left?: boolean }) =>
    void navigate({ search: (before) => ({ ...before, ...change }), replace: true });
  return (
    <Group mb="md" gap="sm" align="flex-end" role="search" aria-label="People">
      <TextInput
        label="Search"
        type="search"
        placeholder="Name, phone, e-mail or address"
        w={{ base: '100%', xs: 280 }}
        value={q ?? ''}
        onChange={(event) => choose({ q: event.currentTarget.value || undefined })}
      />
      <NativeSelect
        label="Role"
        w={{ base: '100%', xs: 190 }}
        value={role ?? ''}
        onChange={(event) => choose({ role: (event.currentTarget.value || undefined) as Role | undefined })}
        data={[{ value: '', label: 'Any role' }, ...Object.entries(ROLES).map(([value, label]) => ({ value, label }))]}
      />
      {anyLeft ? (
        <Checkbox
          label="Also those who have left"
          mb={8}
          checked={left ?? false}
          onChange={(event) => choose({ left: event.currentTarget.checked || undefined })}
        />
      ) : null}
    </Group>
  );
}

function List({ people, all }: { people: Person[]; all: number }): ReactNode {
  if (people.length === 0) return <Empty action={<TextLink to="/people">Show everybody</TextLink>}>Nobody fits this search.</Empty>;
  return (
    <>
      <DataTable caption="People of the firm" columns={COLUMNS} rows={people} rowKey={({ id }) => id} />
      <p role="status" style={{ color: 'var(--bs-ink-soft)' }}>
        {people.length === all ? `${all} people` : `${people.length} of ${all} people`}
      </p>
    </>
  );
}
