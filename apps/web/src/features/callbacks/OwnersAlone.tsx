// What only the owner sees of a callback: its legal paper, and injuries of the firm's own people.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { clocksQuery } from '../../api/callbackClocks.ts';
import { LegalPaper } from './LegalPaper.tsx';
import { WorkInjury } from './WorkInjury.tsx';

export function OwnersAlone({ id }: { id: string }): ReactNode {
  const { data } = useQuery(clocksQuery(id));
  return (
    <>
      {data?.paper ? <LegalPaper id={id} paper={data.paper} /> : null}
      {data?.injuries ? <WorkInjury id={id} injuries={data.injuries} source={data.injurySource ?? ''} /> : null}
    </>
  );
}
