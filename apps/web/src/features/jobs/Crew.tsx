// Who comes besides the pair: when the client is there, who comes along, and the outside providers.
import type { ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { OBSERVER_REASONS, type Crew as CrewData } from '@backsight/contract/schedule/crew';
import { addObserver, crewQuery, removeObserver } from '../../api/crew.ts';
import { newId } from '../../api/ids.ts';
import { Follows } from '../../ui/Follows.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { AddObserver } from './AddObserver.tsx';
import { OutsideService } from './OutsideService.tsx';
import { Reinspect } from './Reinspect.tsx';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

type Visit = CrewData['visits'][number];

export function Crew({ job, mayWork }: { job: Job; mayWork: boolean }): ReactNode {
  const crew = useQuery(crewQuery(job.id));
  const { visits = [], items = [] } = crew.data ?? {};
  const over = job.state === 'cancelled' || job.state === 'lapsed';
  const services = over ? [] : (crew.data?.services ?? []);
  const shown = visits.filter(({ state, observers }) => state === 'held' || state === 'booked' || observers.length > 0);
  const again = mayWork && crew.data?.mayReinspect;
  const comes = shown.length > 0 || services.length > 0;
  const nobody = services.length + items.length === 0 && shown.every(({ observers }) => observers.length === 0);
  if (crew.error) return <ProblemNote of={crew.error} />;
  if (shown.length === 0 && services.length === 0 && items.length === 0 && !again) return null;
  return (
    <Section title={comes ? 'Who else comes' : 'Looking again'} folds={nobody}>
      {items.length > 0 ? <p>Limited to: {items.join('; ')}.</p> : null}
      <ul className={classes.rows} hidden={!comes}>
        {shown.map((visit) => (
          <OneVisit key={visit.id} visit={visit} mayWork={mayWork} />
        ))}
        {services.map((service) => (
          <OutsideService key={service.service} service={service} job={job} version={crew.data!.version} mayWork={mayWork} />
        ))}
      </ul>
      {again ? <Reinspect job={job} /> : null}
    </Section>
  );
}

function OneVisit({ visit, mayWork }: { visit: Visit; mayWork: boolean }): ReactNode {
  const held = visit.state === 'held';
  const remove = useChange(removeObserver, held ? 'Noted.' : 'Noted; the client is told.', undefined, ({ personId }) => {
    const was = visit.observers.find((one) => one.personId === personId);
    return held && was ? () => addObserver({ visitId: visit.id, personId, reason: was.reason, key: newId() }) : null;
  });
  const ahead = mayWork && (held || visit.state === 'booked');
  return (
    <li>
      <div className={classes.words}>
        <strong>{visit.kindName}</strong>
        {visit.observers.length === 0 ? ': the pair alone' : null}
        <ProblemNote of={remove.error} />
        {visit.observers.map(({ personId, name, reason }) => (
          <Group key={personId} gap="xs">
            <span>
              {name} comes along, {OBSERVER_REASONS[reason]}, and counts toward no rule.
            </span>
            {ahead ? (
              <Button
                size="compact-sm"
                variant="default"
                loading={remove.isPending}
                aria-label={`Take off: ${name} does not come along`}
                onClick={() => remove.mutate({ visitId: visit.id, personId })}
              >
                Take off
              </Button>
            ) : null}
          </Group>
        ))}
      </div>
      {ahead && !held && visit.observers.length > 0 ? <Follows>Taking somebody off tells the client by mail at once.</Follows> : null}
      {ahead ? <AddObserver visitId={visit.id} held={held} /> : null}
    </li>
  );
}
