// What plans must keep of one visit: the window that the client was promised, and whether it stays as it is.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { keptQuery } from '../../api/plans.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { PromiseForm } from '../../ui/PromiseForm.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { LockForm } from './LockForm.tsx';

const route = getRouteApi('/shell/visits/$visitId/kept');

export function KeptPage(): ReactNode {
  const { visitId } = route.useParams();
  const kept = useQuery(keptQuery(visitId));
  if (!kept.data)
    return (
      <Page title="What plans keep" width="narrow">
        <ProblemNote of={kept.error} />
        {kept.isPending ? <Loading /> : null}
      </Page>
    );
  const { jobId, jobNumber, kindName, address, startsAt, version } = kept.data;
  return (
    <Page
      title={`What plans keep: ${address}`}
      width="narrow"
      about={
        <>
          {kindName}, <When at={startsAt} />. Plans move a visit only within what is said here.
        </>
      }
      actions={
        <ButtonLink to="/jobs/$jobId" params={{ jobId }} variant="default">
          Job {jobNumber}
        </ButtonLink>
      }
    >
      <Section title="Promised to the client">
        <PromiseForm key={version} visit={kept.data} refresh={['kept', visitId]} />
      </Section>
      <Section title="Stays as it is">
        <LockForm key={version} visit={kept.data} />
      </Section>
    </Page>
  );
}
