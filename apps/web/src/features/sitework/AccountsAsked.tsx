// Accounts that somebody is asked to write, on the page that the phone opens first. Without signal it stays away: it is no matter of the site.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { homeQuery } from '../../api/home.ts';
import { TextLink } from '../../ui/links.tsx';

export function AccountsAsked(): ReactNode {
  const items = useQuery(homeQuery('myAccounts')).data?.lists[0]?.items ?? [];
  return items.map(({ id, thing, title, detail }) => (
    <p key={id}>
      <strong>You are asked for your account.</strong>{' '}
      <TextLink to="/accounts/$callbackId" params={{ callbackId: thing.id }}>
        {detail}
      </TextLink>
      , {title}
    </p>
  ));
}
