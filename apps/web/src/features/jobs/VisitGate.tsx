// What is still missing before a booked visit may start, with the way to its start page.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { gateQuery } from '../../api/agreements.ts';
import { useMe } from '../../api/people.ts';
import { TextLink } from '../../ui/links.tsx';

export function VisitGate({ visit }: { visit: Job['visits'][number] }): ReactNode {
  const me = useMe();
  const { data } = useQuery({ ...gateQuery(visit.id), enabled: visit.state === 'booked' });
  if (!data || visit.state !== 'booked') return null;
  const may = me.roles.includes('owner') || me.roles.includes('lead_inspector') || visit.pair.some(({ personId }) => personId === me.id);
  return (
    <div>
      {data.missing.length > 0 ? (
        <>
          {data.open ? 'May start although something is missing: ' : 'Missing before it may start: '}
          {data.sentences.join(' ')}{' '}
          {may ? (
            <TextLink to="/visits/$visitId/start" params={{ visitId: visit.id }}>
              Start of the visit
            </TextLink>
          ) : null}
        </>
      ) : null}
      {data.warnings.map((line) => (
        <div key={line}>{line}</div>
      ))}
    </div>
  );
}
