// How many callbacks were traced to a step, one click from their list; for owner and lead inspector, nothing for others.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { callbackGroupsQuery } from '../api/callbackLists.ts';
import { useMe } from '../api/people.ts';
import { TextLink } from './links.tsx';

/** Counts of all steps come in one answer, which every step on a page shares. */
export function TracedTo({ stepKey }: { stepKey: string }): ReactNode {
  const { roles } = useMe();
  const judge = roles.includes('owner') || roles.includes('lead_inspector');
  const groups = useQuery({ ...callbackGroupsQuery({ which: 'all', by: 'step' }), enabled: judge }).data;
  const n = groups?.find(({ key }) => key === stepKey)?.callbacks ?? 0;
  if (n === 0) return null;
  return (
    <TextLink
      to="/callbacks"
      search={{ which: 'all', step: stepKey }}
    >{`${n} ${n === 1 ? 'callback' : 'callbacks'} traced to it`}</TextLink>
  );
}
