// What the caller wishes: from which day, which half, which hours, which inspector, on a day of his agent.
import { memo, type ReactNode } from 'react';
import { Checkbox, NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { peopleQuery } from '../../api/people.ts';
import type { Draft } from './draft.ts';
import classes from './booking.module.css';

const AGENTS: readonly string[] = ['buyers_agent', 'listing_agent'];

export const WishInputs = memo(function WishInputs({ draft, change }: { draft: Draft; change: (part: Partial<Draft>) => void }): ReactNode {
  const people = useQuery(peopleQuery);
  const inspectors = (people.data ?? []).filter(({ roles, endedOn }) => roles.includes('inspector') && endedOn === null);
  return (
    <>
      <div className={classes.wishes}>
        <TextInput
          label="From"
          type="date"
          value={draft.fromDay}
          onChange={(event) => event.currentTarget.value && change({ fromDay: event.currentTarget.value })}
        />
        <NativeSelect
          label="Rather in the"
          value={draft.half}
          onChange={(event) => change({ half: event.currentTarget.value as Draft['half'] })}
          data={[
            { value: '', label: 'no wish' },
            { value: 'morning', label: 'morning' },
            { value: 'afternoon', label: 'afternoon' },
          ]}
        />
        <NativeSelect
          label="Rather with"
          value={draft.wishPerson}
          onChange={(event) => change({ wishPerson: event.currentTarget.value })}
          data={[{ value: '', label: 'no wish' }, ...inspectors.map(({ id, name }) => ({ value: id, label: name }))]}
        />
        <TextInput
          label="Not before"
          type="time"
          value={draft.earliest}
          onChange={(event) => change({ earliest: event.currentTarget.value })}
        />
        <TextInput
          label="Done by"
          type="time"
          value={draft.latestEnd}
          onChange={(event) => change({ latestEnd: event.currentTarget.value })}
        />
      </div>
      {AGENTS.includes(draft.role) && draft.known ? (
        <Checkbox
          mb="sm"
          label={`Rather on a day on which ${draft.caller} is at another of our visits`}
          checked={draft.withAgent}
          onChange={(event) => change({ withAgent: event.currentTarget.checked })}
        />
      ) : null}
    </>
  );
});
