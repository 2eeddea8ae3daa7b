// Takes in a callback, a question or a near-miss, from the job that it is about.
import { useState, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { FoundJob } from '@backsight/contract/callbacks';
import { foundJobsQuery } from '../../api/callbacks.ts';
import { useMe } from '../../api/people.ts';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { FindJob } from './FindJob.tsx';
import { IntakeForm } from './IntakeForm.tsx';
import { atTheDesk } from './words.ts';

const route = getRouteApi('/shell/callbacks/new');

export function IntakePage(): ReactNode {
  const search = route.useSearch();
  const [{ job, asked }, choose] = useState<{ job: FoundJob | null; asked: string }>({ job: null, asked: search.job ?? '' });
  // Whoever comes from a job has chosen it already.
  const arriving = useQuery(foundJobsQuery(asked));
  const chosen = job ?? arriving.data?.find(({ number }) => String(number) === asked) ?? null;
  const desk = atTheDesk(useMe().roles);
  return (
    <Page
      title="Take in a callback"
      width="narrow"
      about="A question about the report is logged as a question. It counts as a callback only when somebody says that something was missed, mis-stated or damaged."
    >
      {chosen ? (
        <IntakeForm
          key={chosen.id}
          job={chosen}
          {...(search.kind ? { kind: search.kind } : {})}
          onOther={() => choose({ job: null, asked: '' })}
        />
      ) : arriving.isLoading ? (
        <Loading />
      ) : (
        <FindJob label="Which job is it about?" first={asked} visitedOnly={!desk} onFound={(found) => choose({ job: found, asked: '' })} />
      )}
    </Page>
  );
}
