// The entries that the signed-in person may use, and who that is.
import { useEffect, useRef, useState, type ReactNode } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { Link, useLocation, useRouter } from '@tanstack/react-router';
import { ROLES } from '@backsight/contract/people';
import { signOut, useMe } from '../api/people.ts';
import { isWaiting, useOutbox } from '../api/phone/outbox.ts';
import { photoWaits, useKept } from '../api/phone/photos.ts';
import { forgetReplies } from '../api/phone/replies.ts';
import { useSignings } from '../api/signings.ts';
import { ConfirmDialog } from '../ui/ConfirmDialog.tsx';
import { draftsOf, forgetDrafts } from '../ui/draft.ts';
import { ProblemNote } from '../ui/ProblemNote.tsx';
import { APPEARANCES, useAppearance } from './appearance.ts';
import { groupsFor, type Group } from './navigation.ts';
import classes from './shell.module.css';

export function Navigation(): ReactNode {
  const { roles } = useMe();
  const areas = useRef<HTMLElement>(null);
  const path = useLocation({ select: (location) => location.pathname });
  // A long menu scrolls: where one is has to be in sight.
  useEffect(() => areas.current?.querySelector('[aria-current="page"]')?.scrollIntoView({ block: 'nearest' }), [path]);
  return (
    <div className={classes.navigation}>
      <nav ref={areas} aria-label="Areas" className={classes.areas}>
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
  return (
    <div className={classes.signedIn}>
      <p className={classes.name}>
        <Link to="/people/$personId" params={{ personId: me.id }}>
          {me.name}
        </Link>
      </p>
      <p className={classes.roles}>{me.roles.map((role) => ROLES[role]).join(', ')}</p>
      <Appearance />
      <SignOut personId={me.id} />
    </div>
  );
}

/** Light or dark, kept on this device. */
function Appearance(): ReactNode {
  const [chosen, choose] = useAppearance();
  return (
    <NativeSelect
      aria-label="Light or dark"
      size="xs"
      mb="xs"
      value={chosen}
      onChange={(event) => choose(event.currentTarget.value as typeof chosen)}
      data={Object.entries(APPEARANCES).map(([value, label]) => ({ value, label }))}
    />
  );
}

/** What was read goes off this device; what was not sent stays on it, unseen by others, until the same person signs in again. */
function SignOut({ personId }: { personId: string }): ReactNode {
  const router = useRouter();
  const queries = useQueryClient();
  const photos = useKept().files.filter((file) => file.personId === personId && photoWaits(file)).length;
  const waiting = useOutbox().filter((row) => row.personId === personId && isWaiting(row)).length + useSignings(personId).length + photos;
  const [asking, setAsking] = useState(false);
  const [typed, setTyped] = useState(0);
  const press = () => {
    const drafts = draftsOf(personId);
    setTyped(drafts);
    if (waiting > 0 || drafts > 0) setAsking(true);
    else leave.mutate();
  };
  const leave = useMutation({
    mutationFn: signOut,
    onSuccess: async () => {
      await forgetReplies().catch(() => undefined);
      forgetDrafts(personId);
      setAsking(false);
      await router.navigate({ href: '/sign-in' });
      queries.clear();
    },
  });
  return (
    <>
      <ProblemNote of={asking ? null : leave.error} />
      <Button variant="default" size="compact-sm" loading={leave.isPending} onClick={press}>
        Sign out
      </Button>
      <ConfirmDialog
        opened={asking}
        title="Not everything is sent"
        act="Sign out all the same"
        busy={leave.isPending}
        error={leave.error}
        onClose={() => setAsking(false)}
        onConfirm={() => leave.mutate()}
      >
        {typed > 0 ? (
          <p>{typed === 1 ? 'What you typed into a form' : `What you typed into ${typed} forms`} and did not send goes.</p>
        ) : null}
        {waiting > 0 ? (
          <p>
            {waiting} not sent yet. {waiting === 1 ? 'It stays' : 'They stay'} on this device, where nobody else can see{' '}
            {waiting === 1 ? 'it' : 'them'}, and {waiting === 1 ? 'is' : 'are'} sent when you sign in here again.
          </p>
        ) : null}
      </ConfirmDialog>
    </>
  );
}
