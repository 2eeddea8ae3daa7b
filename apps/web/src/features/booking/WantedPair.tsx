// "Why not these two?": when two people could go, what that costs more, or what keeps them away.
import { memo, useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { peopleQuery } from '../../api/people.ts';
import { startsQuery, type StartsAsk } from '../../api/schedule.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { BlockedDays } from '../../ui/StartChoice.tsx';
import { When } from '../../ui/When.tsx';
import type { Draft } from './draft.ts';
import classes from './booking.module.css';

type Props = { ask: StartsAsk; onChoose: (start: NonNullable<Draft['start']>) => void };

export const WantedPair = memo(function WantedPair({ ask, onChoose }: Props): ReactNode {
  const [one, setOne] = useState('');
  const [two, setTwo] = useState('');
  const people = useQuery(peopleQuery);
  const both = one !== '' && two !== '' && one !== two;
  const found = useQuery(startsQuery(both ? { ...ask, pair: [one, two] } : null));
  const inspectors = (people.data ?? []).filter(({ roles, endedOn }) => roles.includes('inspector') && endedOn === null);
  const data = [{ value: '', label: '' }, ...inspectors.map(({ id, name }) => ({ value: id, label: name }))];
  const wanted = both && !found.isPlaceholderData ? found.data?.wanted : null;
  return (
    <details className={classes.wanted}>
      <summary>Why not two other people?</summary>
      <Group gap="sm" mt="xs">
        <NativeSelect label="One" value={one} onChange={(event) => setOne(event.currentTarget.value)} data={data} />
        <NativeSelect label="The other" value={two} onChange={(event) => setTwo(event.currentTarget.value)} data={data} />
      </Group>
      <ProblemNote of={found.error} />
      {wanted ? (
        <div role="status">
          <p>
            {wanted.options.length === 0
              ? 'These two cannot go together on any of these days.'
              : `Their best start costs ${Math.max(0, Math.round(wanted.costsMore ?? 0))} min more than the best of all.`}
          </p>
          {wanted.options.map((option) => (
            <p key={option.startsAt}>
              <Button
                size="compact-sm"
                variant="default"
                onClick={() => onChoose({ startsAt: option.startsAt, first: option.first, second: option.second })}
              >
                Take <When at={option.startsAt} />
              </Button>{' '}
              {option.sentence}
            </p>
          ))}
          <BlockedDays days={wanted.blockedDays} />
        </div>
      ) : null}
    </details>
  );
});
