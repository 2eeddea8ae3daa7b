// Clients to be called because of an accepted plan, in order, with what to say; each is ticked off when it is done.
import type { ReactNode } from 'react';
import { Checkbox } from '@mantine/core';
import type { PlanCall, ShownPlan } from '@backsight/contract/plans';
import { tickCall } from '../../api/plans.ts';
import { TextLink } from '../../ui/links.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import classes from './plans.module.css';

export function Calls({ plan }: { plan: ShownPlan }): ReactNode {
  const tick = useSend(tickCall, { refresh: ['plan', plan.id], said: 'Noted.' });
  const open = plan.calls.filter(({ doneAt }) => doneAt === null).length;
  return (
    <Section title={open === 0 ? 'All clients were called' : open === 1 ? 'One client to call' : `${open} clients to call`}>
      <ProblemNote of={tick.error} />
      {plan.calls.map((call) => (
        <OneCall key={call.id} call={call} tick={(done) => tick.mutate({ id: call.id, done })} />
      ))}
    </Section>
  );
}

function OneCall({ call, tick }: { call: PlanCall; tick: (done: boolean) => void }): ReactNode {
  const { clients, address, jobId, jobNumber, because, wasAt, willBeAt, objectionOn, doneAt, words } = call;
  const names = clients.map(({ name }) => name).join(', ') || 'No client on file';
  return (
    <div className={classes.call} data-done={doneAt === null ? undefined : true}>
      <Checkbox label={`Called: ${names}`} checked={doneAt !== null} onChange={(event) => tick(event.currentTarget.checked)} />
      <p>
        {clients.map(({ name, phone }) =>
          phone ? (
            <span key={name}>
              {name}: <a href={`tel:${phone}`}>{phone}</a>{' '}
            </span>
          ) : null,
        )}
        <TextLink to="/jobs/$jobId" params={{ jobId }}>
          Job {jobNumber}, {address}
        </TextLink>
      </p>
      <p>
        Was <When at={wasAt} />,{' '}
        {because === 'left_out' || willBeAt === null ? (
          <strong>has no time now: agree on another on the job’s page</strong>
        ) : (
          <>
            now <When at={willBeAt} />
          </>
        )}
        {objectionOn ? (
          <>
            {' '}
            (must object by <Day day={objectionOn} />)
          </>
        ) : null}
      </p>
      <p className={classes.words}>{words}</p>
    </div>
  );
}
