// Places a device, or notes a sample as drawn.
import { useState, type ReactNode } from 'react';
import { Checkbox, TextInput } from '@mantine/core';
import { TEST_KINDS, type TestItems } from '@backsight/contract/sitework/testItems';
import { placeTestItem } from '../../api/desk.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { localInput, toInstant } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Choices } from './Choices.tsx';
import classes from './sitework.module.css';

const LABELS = {
  kind: 'What',
  what: 'Name',
  serial: 'Serial number',
  happenedAt: 'When',
  closedSince: 'House closed since, as the occupant says',
  occupantTold: 'The occupant was told: windows and outer doors stay closed, the device is not moved',
};
type Kind = keyof typeof TEST_KINDS;
const KINDS = [
  { key: 'device' as Kind, label: 'A device stays here' },
  { key: 'sample' as Kind, label: 'A sample was drawn' },
];
const NAMES: Record<Kind, string> = { device: 'Radon monitor', sample: 'Water sample' };

export function PlaceTest({ tests }: { tests: TestItems }): ReactNode {
  const { zone } = useMe();
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const place = useSend(placeTestItem, { refresh: ['jobs'], said: 'It is on record.', then: () => setIds({ id: newId(), key: newId() }) });
  const fields = useFields(
    {
      kind: 'device' as Kind,
      what: NAMES.device,
      serial: '',
      happenedAt: localInput(new Date(), zone),
      closedSince: '',
      occupantTold: false,
    },
    LABELS,
    place.error,
    'place',
  );
  const { values } = fields;
  const device = values.kind === 'device';
  const send = () =>
    place.mutate({
      jobId: tests.jobId,
      id: ids.id,
      key: `${ids.key}-${Date.now()}`,
      kind: values.kind,
      what: values.what,
      serial: values.serial,
      happenedAt: toInstant(values.happenedAt, zone),
      closedSince: device && values.closedSince !== '' ? toInstant(values.closedSince, zone) : null,
      occupantTold: device && values.occupantTold,
    });
  const choose = (kind: Kind) => fields.setValues((before) => ({ ...before, kind, what: NAMES[kind] }));
  return (
    <section aria-label="Place or draw" className={classes.work}>
      <h2>Place a device or draw a sample</h2>
      <Form
        error={place.error}
        labels={LABELS}
        scope="place"
        draft={fields.draft}
        submit={device ? 'It is placed' : 'It is drawn'}
        busy={place.isPending}
        onSubmit={send}
      >
        <Choices legend={LABELS.kind} name="test-kind" options={KINDS} value={values.kind} onChange={choose} two />
        <TextInput {...fields.text('what')} maxLength={120} required mt="sm" />
        <TextInput {...fields.text('serial')} maxLength={60} required mt="sm" />
        <TextInput {...fields.text('happenedAt')} type="datetime-local" required mt="sm" />
        {device ? (
          <>
            <TextInput
              {...fields.text('closedSince')}
              type="datetime-local"
              mt="sm"
              description={`The test counts once the house has been closed for ${tests.limits.closedHouseHours} hours, and runs ${tests.limits.shortestHours} hours at least. Left empty: closed from the placing on.`}
            />
            <Checkbox {...fields.check('occupantTold')} size="md" mt="md" />
          </>
        ) : (
          <p className={classes.soft}>The laboratory must have it within {tests.limits.holdingHours} hours.</p>
        )}
      </Form>
    </section>
  );
}
