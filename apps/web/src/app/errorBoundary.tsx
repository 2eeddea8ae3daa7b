// What shows when a screen fails or does not exist: a sentence and a way on, never an empty page.
import { lazy, Suspense, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useRouter } from '@tanstack/react-router';
import { asProblem, isForOthers } from '../api/problemError.ts';
import { ButtonLink } from '../ui/links.tsx';
import { Loading } from '../ui/Loading.tsx';
import { Page } from '../ui/Page.tsx';
import { ProblemNote } from '../ui/ProblemNote.tsx';
import classes from './shell.module.css';

const NotForRole = lazy(() => import('./NotForRole.tsx'));

export function ScreenError(props: { error: unknown; reset?: () => void }): ReactNode {
  return isForOthers(props.error) ? (
    <Suspense fallback={<Loading />}>
      <NotForRole />
    </Suspense>
  ) : (
    <Failed {...props} />
  );
}

function Failed({ error, reset }: { error: unknown; reset?: () => void }): ReactNode {
  const router = useRouter();
  const again = () => {
    reset?.();
    void router.invalidate();
  };
  const missing = asProblem(error)?.status === 404;
  return (
    <Page title={missing ? 'Not here' : 'This did not work'} listed={false}>
      <ProblemNote of={error} />
      <Group mt="md">
        {missing ? null : <Button onClick={again}>Try again</Button>}
        <ButtonLink to="/" variant="default">
          Go to Home
        </ButtonLink>
      </Group>
    </Page>
  );
}

/** The same where the shell itself could not open, for example while the service is down. */
export function FullScreenError(props: { error: unknown; reset?: () => void }): ReactNode {
  return (
    <main className={classes.main}>
      <ScreenError {...props} />
    </main>
  );
}

export function NoSuchScreen(): ReactNode {
  return (
    <Page title="There is nothing at this address">
      <p>The link may be old, or a letter of it is missing.</p>
      <ButtonLink to="/">Go to Home</ButtonLink>
    </Page>
  );
}
