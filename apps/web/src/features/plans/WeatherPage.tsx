// Bad weather: what is closed, the visits that it hits, and the way to move them together.
import { useState, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import type { Closure } from '@backsight/contract/plans/closures';
import { newId } from '../../api/ids.ts';
import { askWeatherPlan, closeForWeather, closuresQuery, liftClosure, plansQuery } from '../../api/plans.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import { CloseForm } from './CloseForm.tsx';
import { PlanList } from './PlanList.tsx';
import classes from './plans.module.css';

export function WeatherPage(): ReactNode {
  const closures = useQuery(closuresQuery);
  const plans = useQuery(plansQuery('weather'));
  const [adding, setAdding] = useState(false);
  const items = closures.data?.items ?? [];
  return (
    <Page
      title="Bad weather"
      about="Nothing is booked into a closed time. Its visits move together, on the same day where that can be, else on the days after; nothing is charged for it."
      actions={adding ? undefined : <Button onClick={() => setAdding(true)}>Close a time</Button>}
    >
      <ProblemNote of={closures.error ?? plans.error} />
      {closures.isPending ? <Loading /> : null}
      {adding && closures.data ? (
        <Section title="Close a time">
          <CloseForm towns={closures.data.towns} done={() => setAdding(false)} />
        </Section>
      ) : null}
      {closures.data && items.length === 0 && !adding ? <Empty>No time is closed for weather.</Empty> : null}
      {items.map((closure) => (
        <OneClosure key={closure.id} closure={closure} mail={closures.data!.mail} />
      ))}
      {plans.data && plans.data.items.length > 0 ? (
        <Section title="Plans made lately">
          <PlanList plans={plans.data.items} />
        </Section>
      ) : null}
    </Page>
  );
}

const columns: Column<Closure['visits'][number]>[] = [
  {
    key: 'job',
    head: 'Visit',
    cell: ({ jobId, label }) => (
      <TextLink to="/jobs/$jobId" params={{ jobId }}>
        {label}
      </TextLink>
    ),
  },
  { key: 'at', head: 'Begins', cell: ({ startsAt }) => <When at={startsAt} /> },
  { key: 'by', head: 'Client must object by', cell: ({ objectionOn }) => (objectionOn ? <Day day={objectionOn} /> : '') },
];

function OneClosure({ closure, mail }: { closure: Closure; mail: string }): ReactNode {
  const navigate = useNavigate();
  const lift = useSend(({ id: closureId }: Closure) => liftClosure(closureId), {
    refresh: ['closures'],
    said: 'Starts in this time are offered again.',
    undo: (was) => () =>
      closeForWeather({
        ...{ id: newId(), key: newId(), startsAt: was.startsAt, endsAt: was.endsAt },
        ...{ towns: was.towns, outdoorOnly: was.outdoorOnly, reason: was.reason },
      }),
  });
  const ask = useSend(askWeatherPlan, {
    refresh: ['plans'],
    said: 'The visits are being planned.',
    then: ({ id }) => void navigate({ to: '/day-plan/$planId', params: { planId: id } }),
  });
  const { id, startsAt, endsAt, towns, outdoorOnly, reason, recordedBy, visits } = closure;
  const where = towns.length === 0 ? 'the whole county' : towns.join(', ');
  return (
    <Section title={`${reason}: ${outdoorOnly ? 'roof work in ' : ''}${where}`}>
      <p>
        <When at={startsAt} /> to <When at={endsAt} />, closed by {recordedBy}.
      </p>
      <ProblemNote of={lift.error ?? ask.error} />
      {visits.length === 0 ? (
        <Empty>No booked visit lies in this time.</Empty>
      ) : (
        <DataTable caption="Visits in this time" columns={columns} rows={visits} rowKey={(visit) => visit.id} />
      )}
      {visits.length > 0 ? (
        <details style={{ marginTop: 'var(--bs-space-5)' }}>
          <summary>What clients will read when their visit moves</summary>
          <p className={classes.words} style={{ whiteSpace: 'pre-line' }}>
            {mail.replace('(reason)', reason)}
          </p>
        </details>
      ) : null}
      <Group mt="sm">
        {visits.length > 0 ? (
          <Button loading={ask.isPending} onClick={() => ask.mutate({ closureId: id, id: newId(), key: newId() })}>
            Show three ways to move {visits.length === 1 ? 'it' : 'them'}
          </Button>
        ) : null}
        <Button variant="default" loading={lift.isPending} onClick={() => lift.mutate(closure)}>
          Open it again
        </Button>
      </Group>
    </Section>
  );
}
