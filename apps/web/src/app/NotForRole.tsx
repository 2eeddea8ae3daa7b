// Said once where a screen is for other roles: for whom it is, and what whoever came here may do instead.
import type { ReactNode } from 'react';
import { useLocation } from '@tanstack/react-router';
import { ROLES, type Role } from '@backsight/contract/people';
import { useMe } from '../api/people.ts';
import { TextLink } from '../ui/links.tsx';
import { Page } from '../ui/Page.tsx';
import { insteadOf } from './navigation.ts';

const list = (roles: readonly Role[], last: string): string =>
  roles.map((role, at) => `${at === 0 ? '' : at === roles.length - 1 ? ` ${last} ` : ', '}${ROLES[role]}`).join('');

export default function NotForRole(): ReactNode {
  const { roles } = useMe();
  const path = useLocation({ select: ({ pathname }) => pathname });
  const { area, may, instead } = insteadOf(path, roles);
  const forWhom =
    area && area.who !== 'signed_in' && !may
      ? `"${area.label}" is for the ${list(area.who, 'or')}.`
      : area && may
        ? `You may use "${area.label}"; this part of it is for other roles.`
        : 'This screen is for other roles.';
  return (
    <Page title="Not for your role" listed={false}>
      <p>
        {`${forWhom} You are signed in as ${list(roles, 'and')}: ask one of those who may for what you need from here. Nothing was changed.`}
      </p>
      <h2>What you may do instead</h2>
      <ul>
        {instead.map(({ to, label, about }) => (
          <li key={to}>
            <TextLink to={to}>{label}</TextLink>: {about}
          </li>
        ))}
      </ul>
    </Page>
  );
}
