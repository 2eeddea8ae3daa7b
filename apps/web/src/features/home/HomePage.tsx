// Home: what needs doing now, the weightiest list first, and nothing else; of a firm that is being set up also what it still lacks.
import { lazy, Suspense, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { homeQuery } from '../../api/home.ts';
import { useMe } from '../../api/people.ts';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { begins } from './begins.ts';
import { HomeSection } from './HomeSection.tsx';
import { NOTHING } from './words.ts';

/** Most firms are past them. */
const FirstSteps = lazy(() => import('./FirstSteps.tsx'));

/** So many lists, the weightiest, show more of their lines. */
const WEIGHTY = 3;

/** The way to what comes next: nobody stays on an empty page. */
function NothingNow(): ReactNode {
  const { roles } = useMe();
  return (
    <Empty>
      {NOTHING}{' '}
      {roles.includes('inspector') ? (
        <TextLink to="/my-day">Your visits of today and tomorrow</TextLink>
      ) : (
        <TextLink to="/week">See the week</TextLink>
      )}
    </Empty>
  );
}

export function HomePage(): ReactNode {
  const home = useQuery(homeQuery());
  const filled = (home.data?.lists ?? []).filter(({ count }) => count > 0);
  const steps = home.data?.firstSteps;
  const first = steps ? (
    <Suspense fallback={<Loading />}>
      <FirstSteps steps={steps} left={home.data?.stepsLeft ?? []} />
    </Suspense>
  ) : null;
  return (
    <Page title="Home" about="What needs you now, the weightiest first; a line goes when it is done.">
      <ProblemNote of={home.error} />
      {home.isPending ? <Loading /> : null}
      {begins(steps) ? first : null}
      {home.data && filled.length === 0 && !steps ? <NothingNow /> : null}
      {filled.map((list, at) => (
        <HomeSection key={list.key} list={list} lines={at < WEIGHTY ? 5 : 3} />
      ))}
      {begins(steps) ? null : first}
    </Page>
  );
}
