// Personal data: one person's export and erasure, for how long records are kept, and what is due to go.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { retentionQuery } from '../../api/personal.ts';
import { useMe } from '../../api/people.ts';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Disposed, Due, Held } from './Due.tsx';
import { OnePerson } from './OnePerson.tsx';
import { Policy } from './Policy.tsx';

export function PersonalDataPage(): ReactNode {
  const owner = useMe().roles.includes('owner');
  const { data, error, isPending } = useQuery({ ...retentionQuery, enabled: owner });
  return (
    <Page
      title="Personal data"
      about="Give somebody everything that is kept of them, erase who asks for it, and dispose of records whose time is over. Nothing is ever deleted by itself."
    >
      <OnePerson owner={owner} />
      <ProblemNote of={error} />
      {owner && isPending ? <Loading /> : null}
      {data ? (
        <>
          <Due due={data.due} more={data.more} />
          {data.held.length > 0 ? <Held held={data.held} /> : null}
          <Policy policy={data.policy} note={data.note} />
          {data.disposed.length > 0 ? <Disposed disposed={data.disposed} /> : null}
        </>
      ) : null}
    </Page>
  );
}
