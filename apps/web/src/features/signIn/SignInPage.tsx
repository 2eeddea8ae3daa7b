// Signing in; afterwards one is where one was going.
import type { ReactNode } from 'react';
import { useQueryClient } from '@tanstack/react-query';
import { getRouteApi, useRouter } from '@tanstack/react-router';
import { TextLink } from '../../ui/links.tsx';
import { SignInForm } from './SignInForm.tsx';
import { OutsideCard } from './OutsideCard.tsx';

const route = getRouteApi('/sign-in');

export function SignInPage(): ReactNode {
  const { from } = route.useSearch();
  const router = useRouter();
  const queries = useQueryClient();
  const enter = () => {
    queries.clear();
    router.history.push(from ?? '/');
  };
  return (
    <OutsideCard title="Sign in">
      <SignInForm onSignedIn={enter} />
      <p>
        <TextLink to="/forgotten">Password forgotten?</TextLink>
      </p>
    </OutsideCard>
  );
}
