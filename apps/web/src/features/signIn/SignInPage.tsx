// Signing in; afterwards one is where one was going.
import { useEffect, type ReactNode } from 'react';
import { useQueryClient } from '@tanstack/react-query';
import { getRouteApi, useRouter } from '@tanstack/react-router';
import { Title } from '@mantine/core';
import { TextLink } from '../../ui/links.tsx';
import { SignInForm } from './SignInForm.tsx';
import classes from './signIn.module.css';

const route = getRouteApi('/sign-in');

export function SignInPage(): ReactNode {
  const { from } = route.useSearch();
  const router = useRouter();
  const queries = useQueryClient();
  useEffect(() => {
    document.title = 'Sign in · Backsight';
  }, []);
  const enter = () => {
    queries.clear();
    router.history.push(from ?? '/');
  };
  return (
    <main className={classes.page}>
      <div className={classes.card}>
        <p className={classes.mark}>Backsight</p>
        <Title order={1} mb="md">
          Sign in
        </Title>
        <SignInForm onSignedIn={enter} />
        <p>
          <TextLink to="/forgotten">Password forgotten?</TextLink>
        </p>
      </div>
    </main>
  );
}
