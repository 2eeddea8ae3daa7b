// What only the owner sees of a callback: its legal paper, and injuries of the firm's own people.
import { lazy, Suspense, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { clocksQuery } from '../../api/callbackClocks.ts';
import { Loading } from '../../ui/Loading.tsx';
import { WorkInjury } from './WorkInjury.tsx';

/** Few callbacks come with one. */
const LegalPaper = lazy(() => import('./LegalPaper.tsx').then((part) => ({ default: part.LegalPaper })));

export function OwnersAlone({ id }: { id: string }): ReactNode {
  const { data } = useQuery(clocksQuery(id));
  return (
    <>
      {data?.paper ? (
        <Suspense fallback={<Loading />}>
          <LegalPaper id={id} paper={data.paper} />
        </Suspense>
      ) : null}
      {data?.injuries ? <WorkInjury id={id} injuries={data.injuries} source={data.injurySource ?? ''} /> : null}
    </>
  );
}
