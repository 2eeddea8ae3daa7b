// What is known of the house, and what is not yet; learning something shows the difference in fee and time before it is taken in.
import { useState, type ReactNode } from 'react';
import { Button, Group, SimpleGrid } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import type { FactsDifference, JobPage as Job } from '@backsight/contract/jobs';
import { FACTS, type FactDefinition, type FactKey, type PropertyFacts } from '@backsight/domain/shared/facts';
import { learnFacts, previewFacts } from '../../api/jobs.ts';
import { Details } from '../../ui/Details.tsx';
import { FactInput } from '../../ui/FactInput.tsx';
import { FeeDifference } from '../../ui/FeeDifference.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { Section } from '../../ui/Section.tsx';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

const KEYS = Object.keys(FACTS) as FactKey[];

function inWords(fact: FactKey, facts: PropertyFacts): string {
  const definition: FactDefinition = FACTS[fact];
  const value = facts[fact];
  if (value === undefined) return 'not known yet';
  if (definition.type === 'yesNo') return value ? 'yes' : 'no';
  if (definition.type === 'number') return `${value}${definition.unit ? ` ${definition.unit}` : ''}`;
  return [value]
    .flat()
    .map((one) => definition.options[String(one)])
    .join(', ');
}

export function Facts({ job, mayWork }: { job: Job; mayWork: boolean }): ReactNode {
  const [editing, setEditing] = useState(false);
  const known = KEYS.filter((key) => job.facts[key] !== undefined);
  const unknown = KEYS.filter((key) => job.facts[key] === undefined).map((key) => FACTS[key].label.toLowerCase());
  const open = ['held', 'booked', 'on_site', 'lapsed'].includes(job.state);
  return (
    <Section title="House" folds>
      {editing ? (
        <Learn job={job} onDone={() => setEditing(false)} />
      ) : (
        <>
          <Details
            short
            rows={[
              ...known.map((key) => [FACTS[key].label, inWords(key, job.facts)] as const),
              ['Not known yet', unknown.join(', ') || 'nothing'],
            ]}
          />
          {mayWork && open ? (
            <Button variant="default" onClick={() => setEditing(true)}>
              Something was learned
            </Button>
          ) : null}
        </>
      )}
    </Section>
  );
}

function Learn({ job, onDone }: { job: Job; onDone: () => void }): ReactNode {
  const [facts, setFacts] = useState<PropertyFacts>(job.facts);
  const look = useMutation({ mutationFn: previewFacts });
  const learn = useChange(learnFacts, 'What was learned is on the job.', ({ warnings }) => {
    for (const { text } of warnings) saved(text);
    onDone();
  });
  const change = (next: PropertyFacts) => {
    setFacts(next);
    look.reset();
  };
  return (
    <div className={classes.inline}>
      <SimpleGrid cols={{ base: 1, xs: 2, md: 3 }} spacing="sm">
        {KEYS.map((key) => (
          <FactInput key={key} fact={key} facts={facts} onChange={change} />
        ))}
      </SimpleGrid>
      <ProblemNote of={look.error ?? learn.error} />
      {look.data ? <Difference difference={look.data} /> : null}
      <Group mt="sm">
        {look.data ? (
          <Button loading={learn.isPending} onClick={() => learn.mutate({ id: job.id, version: job.version, facts })}>
            Take it in
          </Button>
        ) : (
          <Button loading={look.isPending} onClick={() => look.mutate({ id: job.id, facts })}>
            Show the difference
          </Button>
        )}
        <Button variant="default" onClick={onDone}>
          Leave it
        </Button>
      </Group>
    </div>
  );
}

function Difference({ difference: d }: { difference: FactsDifference }): ReactNode {
  return (
    <FeeDifference beforeCents={d.beforeCents} afterCents={d.afterCents} lines={d.fee}>
      Time on site: {d.beforeMinutes ?? 'none'} min booked, {d.afterMinutes} min needed.
    </FeeDifference>
  );
}
