// Home: what needs doing now, the weightiest list first; each line leads to where it is done.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { homeQuery } from '../../api/home.ts';
import { useMe } from '../../api/people.ts';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { HomeSection } from './HomeSection.tsx';
import { NOTHING, WORDS } from './words.ts';

/** So many lists, the weightiest, show more of their lines. */
const WEIGHTY = 3;

export function HomePage(): ReactNode {
  const me = useMe();
  const home = useQuery(homeQuery());
  const lists = home.data?.lists ?? [];
  const filled = lists.filter(({ count }) => count > 0);
  const quiet = lists.filter(({ count }) => count === 0);
  return (
    <Page title="Home" about={`What needs doing now, ${me.name}`}>
      <ProblemNote of={home.error} />
      {home.isPending ? <Loading /> : null}
      {home.data && filled.length === 0 ? <Empty>{NOTHING}</Empty> : null}
      {filled.map((list, at) => (
        <HomeSection key={list.key} list={list} lines={at < WEIGHTY ? 5 : 3} />
      ))}
      {filled.length > 0 && quiet.length > 0 ? (
        <p style={{ color: 'var(--bs-ink-soft)', marginTop: '2rem' }}>
          Nothing to do for: {quiet.map(({ key }) => WORDS[key].title.toLowerCase()).join(', ')}.
        </p>
      ) : null}
    </Page>
  );
}
