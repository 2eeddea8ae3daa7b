// One list of the home, whole.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { HOME_KEYS } from '@backsight/contract/home';
import { homeQuery } from '../../api/home.ts';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Lines } from './Lines.tsx';
import { NOTHING, WORDS } from './words.ts';

const route = getRouteApi('/shell/to-do/$list');

export function ListPage(): ReactNode {
  const asked = route.useParams().list;
  const key = HOME_KEYS.find((one) => one === asked);
  const found = useQuery({ ...homeQuery(key), enabled: key !== undefined });
  if (!key)
    return (
      <Page title="Home">
        <Empty>There is no such list.</Empty>
      </Page>
    );
  const list = found.data?.lists[0];
  return (
    <Page title={WORDS[key].title} about={list ? amount(list.count, list.items.length) : undefined}>
      <ProblemNote of={found.error} />
      {found.isPending ? <Loading /> : null}
      {found.data && !list?.count ? <Empty>{NOTHING}</Empty> : null}
      {list?.count ? <Lines list={key} items={list.items} /> : null}
    </Page>
  );
}

const amount = (count: number, shown: number): string => (count > shown ? `The first ${shown} of ${count}` : `${count} in all`);
