// The entries that the signed-in person may use, and who that is.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { Link, useRouter } from '@tanstack/react-router';
import { ROLES } from '@backsight/contract/people';
import { signOut, useMe } from '../api/people.ts';
import { ProblemNote } from '../ui/ProblemNote.tsx';
import { groupsFor, type Group } from './navigation.ts';
import classes from './shell.module.css';

export function Navigation(): ReactNode {
  const { roles } = useMe();
  return (
    <div className={classes.navigation}>
      <nav aria-label="Areas" className={classes.areas}>
        {groupsFor(roles).map((group) => (
          <Entries key={group.name} group={group} />
        ))}
      </nav>
      <SignedIn />
    </div>
  );
}

function Entries({ group }: { group: Group }): ReactNode {
  return (
    <>
      {group.name ? <h2 className={classes.group}>{group.name}</h2> : null}
      <ul className={classes.entries}>
        {group.entries.map(({ to, label }) => (
          <li key={to}>
            <Link to={to} className={classes.entry} activeOptions={{ exact: to === '/', includeSearch: false }}>
              {label}
            </Link>
          </li>
        ))}
      </ul>
    </>
  );
}

function SignedIn(): ReactNode {
  const me = useMe();
  const router = useRouter();
  const queries = useQueryClient();
  const leave = useMutation({
    mutationFn: signOut,
    onSuccess: async () => {
      await router.navigate({ href: '/sign-in' });
      queries.clear();
    },
  });
  return (
    <div className={classes.signedIn}>
      <p className={classes.name}>
        <Link to="/people/$personId" params={{ personId: me.id }}>
          {me.name}
        </Link>
      </p>
      <p className={classes.roles}>{me.roles.map((role) => ROLES[role]).join(', ')}</p>
      <ProblemNote of={leave.error} />
      <Button variant="default" size="compact-sm" loading={leave.isPending} onClick={() => leave.mutate()}>
        Sign out
      </Button>
    </div>
  );
}
