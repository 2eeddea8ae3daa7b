// Where the house is: by town, by ZIP code, or exactly; pasted coordinates set the exact place.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect, TextInput } from '@mantine/core';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { readCoordinates } from '@backsight/domain/shared/coordinates';
import { STATE_CHOICES, stateName } from '@backsight/domain/shared/stateOfZip';
import { setPlace, setState } from '../../api/travel.ts';
import { Form } from '../../ui/Form.tsx';
import { saved } from '../../ui/saved.ts';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

const BY = {
  town: 'in the middle of the town (approximate)',
  zip: 'by ZIP code (approximate)',
  exact: 'exact',
} as const;

/** 'Eastern Time' of an IANA zone. */
const zoneName = (zone: string): string =>
  new Intl.DateTimeFormat('en-US', { timeZone: zone, timeZoneName: 'longGeneric' })
    .formatToParts()
    .find(({ type }) => type === 'timeZoneName')?.value ?? zone;

export function Place({ job, mayWork }: { job: Job; mayWork: boolean }): ReactNode {
  const [editing, setEditing] = useState<'place' | 'state' | null>(null);
  const { lat, lon, placeBy, zip, state, zoneBeyond } = job.property;
  const done = () => setEditing(null);
  return (
    <Section title="Place" folds>
      <p>
        {lat.toFixed(4)}, {lon.toFixed(4)}, {BY[placeBy]}
        {placeBy === 'zip' ? ` ${zip}` : ''}. Driving times are counted from here.
        {zoneBeyond ? ` The clocks at the house show ${zoneName(zoneBeyond)}; all times here are the firm’s.` : ''}
      </p>
      <p>State: {stateName(state)}. Its rules count for agreement, report and claims.</p>
      {editing === 'place' ? <SetPlace job={job} done={done} /> : null}
      {editing === 'state' ? <SetState job={job} done={done} /> : null}
      {mayWork && editing === null ? (
        <Group gap="sm">
          <Button variant="default" onClick={() => setEditing('place')}>
            Set the exact place
          </Button>
          <Button variant="default" onClick={() => setEditing('state')}>
            Set the state
          </Button>
        </Group>
      ) : null}
    </Section>
  );
}

const LABELS = { lat: 'Latitude and longitude' };

function SetPlace({ job, done }: { job: Job; done: () => void }): ReactNode {
  const set = useChange(setPlace, 'The place is set.', ({ warnings }) => {
    for (const { text } of warnings) saved(text);
    done();
  });
  const fields = useFields({ lat: '' }, LABELS, set.error, 'place');
  const [unread, setUnread] = useState(false);
  const send = () => {
    const place = readCoordinates(fields.values.lat);
    setUnread(place === null);
    if (place) set.mutate({ id: job.property.id, version: job.property.version, ...place });
  };
  const input = fields.text('lat');
  return (
    <div className={classes.inline}>
      <Form
        error={set.error}
        labels={LABELS}
        scope="place"
        submit="Set this place"
        busy={set.isPending}
        onSubmit={send}
        besides={
          <Button variant="default" onClick={done}>
            Leave it
          </Button>
        }
      >
        <TextInput
          {...input}
          error={unread ? 'Paste two numbers, latitude first: 44.0312, -88.5437' : input.error}
          description="As a map shows them when a place is pointed at: 44.0312, -88.5437"
          autoComplete="off"
          required
        />
      </Form>
    </div>
  );
}

const STATE_LABELS = { state: 'State' };

/** For a house across a line of states, or one whose ZIP code tells another. */
function SetState({ job, done }: { job: Job; done: () => void }): ReactNode {
  const set = useChange(setState, 'The state is set.', done);
  const fields = useFields({ state: job.property.state }, STATE_LABELS, set.error, 'state');
  return (
    <div className={classes.inline}>
      <Form
        error={set.error}
        labels={STATE_LABELS}
        scope="state"
        submit="Set this state"
        busy={set.isPending}
        onSubmit={() => set.mutate({ id: job.property.id, version: job.property.version, ...fields.values })}
        besides={
          <Button variant="default" onClick={done}>
            Leave it
          </Button>
        }
      >
        <NativeSelect {...fields.text('state')} data={STATE_CHOICES} />
      </Form>
    </div>
  );
}
