// One job: what is still to get comes first, then its visits, people, fee, house, papers and history.
import type { ReactNode } from 'react';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { Button, Group } from '@mantine/core';
import { getRouteApi } from '@tanstack/react-router';
import { useState } from 'react';
import { JOB_KINDS, JOB_STATES, type JobPage as Job } from '@backsight/contract/jobs';
import type { Role } from '@backsight/contract/people';
import { newId } from '../../api/ids.ts';
import { confirmJob, jobQuery } from '../../api/jobs.ts';
import { useMe } from '../../api/people.ts';
import { Contacts } from '../../ui/contacts/Contacts.tsx';
import { Hold } from '../../ui/hold/Hold.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { NextChoices } from '../../ui/NextChoices.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { CameBack } from './CameBack.tsx';
import { CancelJob } from './CancelJob.tsx';
import { Endings } from './Endings.tsx';
import { Crew } from './Crew.tsx';
import { Facts } from './Facts.tsx';
import { Fee } from './Fee.tsx';
import { HoldClock } from './HoldClock.tsx';
import { AskOwner } from './AskOwner.tsx';
import { JobFiles } from './JobFiles.tsx';
import { Needs } from './Needs.tsx';
import { Past, VisitTime } from './Past.tsx';
import { Papers, History } from './Papers.tsx';
import { PapersDiffer } from './PapersDiffer.tsx';
import { People } from './People.tsx';
import { Place } from './Place.tsx';
import { Visits } from './Visits.tsx';

const route = getRouteApi('/shell/jobs/$jobId');
const OFFICE: readonly Role[] = ['owner', 'office_manager', 'lead_inspector'];

export function JobPage(): ReactNode {
  const { jobId } = route.useParams();
  const job = useQuery(jobQuery(jobId));
  if (job.data) return <OneJob job={job.data} />;
  return (
    <Page title="Job">
      <ProblemNote of={job.error} />
      {job.isPending ? <Loading /> : null}
    </Page>
  );
}

function OneJob({ job }: { job: Job }): ReactNode {
  const me = useMe();
  const mayWork = me.roles.some((role) => OFFICE.includes(role));
  const keepsMoney = me.roles.some((role) => role === 'owner' || role === 'office_manager');
  const total = job.feeLines.reduce((sum, { cents }) => sum + cents, 0);
  const inspection = job.visits.find(({ state }) => state === 'held' || state === 'booked') ?? job.visits[0];
  return (
    <Page
      title={`Job ${job.number}${job.kind === 'inspection' ? '' : `, ${JOB_KINDS[job.kind]}`}`}
      about={
        <>
          {job.property.address}, {job.property.town} · {JOB_STATES[job.state]}
          {inspection ? (
            <>
              {' '}
              · <VisitTime job={job} startsAt={inspection.startsAt} endsAt={inspection.endsAt} />
            </>
          ) : null}{' '}
          · <Money cents={total} />
        </>
      }
      actions={mayWork && ['held', 'booked', 'lapsed'].includes(job.state) ? <CancelJob job={job} /> : undefined}
    >
      {mayWork && (job.state === 'held' || job.state === 'lapsed') ? <Confirm job={job} /> : null}
      <Past job={job} maySee={keepsMoney} />
      {job.property.inspectedBefore ? (
        <p>This property was inspected before. A lead inspector decides whether the same pair may go.</p>
      ) : null}
      {mayWork ? <CameBack job={job} /> : null}
      {mayWork && job.papersDiffer.length > 0 ? <PapersDiffer job={job} /> : null}
      <Endings job={job} mayWork={mayWork} />
      <Needs job={job} mayWork={mayWork} />
      <Visits job={job} mayWork={mayWork} />
      <Crew job={job} mayWork={mayWork} />
      <People job={job} mayWork={mayWork} isOwner={me.roles.includes('owner')} />
      {mayWork ? <Contacts jobId={job.id} /> : null}
      <Fee job={job} mayWork={mayWork} />
      <Place job={job} mayWork={mayWork} />
      <Facts job={job} mayWork={mayWork} />
      {me.roles.includes('owner') ? <AskOwner of="house" id={job.property.id} name="this house" /> : null}
      <Papers job={job} keepsMoney={keepsMoney} />
      {mayWork ? <Hold jobId={job.id} always /> : null}
      {keepsMoney ? <JobFiles jobId={job.id} isOwner={me.roles.includes('owner')} /> : null}
      {job.events.length > 0 ? <History job={job} /> : null}
    </Page>
  );
}

function Confirm({ job }: { job: Job }): ReactNode {
  const queries = useQueryClient();
  const [key] = useState(newId);
  const confirm = useMutation({
    mutationFn: () => confirmJob({ id: job.id, key }),
    onSuccess: async ({ invoiceNumber, warnings }) => {
      await queries.invalidateQueries({ queryKey: ['jobs'] });
      saved(`The job is booked; invoice ${invoiceNumber} and the agreement are issued.`);
      for (const { text } of warnings) saved(text);
    },
    onError: () => void queries.invalidateQueries({ queryKey: ['jobs', job.id] }),
  });
  const until = job.visits.find(({ state }) => state === 'held')?.holdEndsAt;
  return (
    <section aria-label="Confirm">
      <ProblemNote of={confirm.error}>
        <NextChoices of={confirm.error} onTake={() => confirm.reset()} />
      </ProblemNote>
      <Group>
        <Button loading={confirm.isPending} onClick={() => confirm.mutate()}>
          Confirm the booking
        </Button>
        {until ? (
          <HoldClock job={job} until={until} />
        ) : (
          <span>The hold has ended. It can be confirmed as long as the time is still free.</span>
        )}
      </Group>
    </section>
  );
}
