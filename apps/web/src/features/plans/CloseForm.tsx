// Closes a part of the county, or roof work alone, from one time to another.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, Group, SimpleGrid, TextInput } from '@mantine/core';
import { DateTime } from 'luxon';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { closeForWeather, liftClosure } from '../../api/plans.ts';
import { Form } from '../../ui/Form.tsx';
import { localInput, toInstant } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = { startsAt: 'From', endsAt: 'Until', reason: 'Weather', towns: 'Towns', outdoorOnly: 'Only visits with work on the roof' };

export function CloseForm({ towns, done }: { towns: readonly string[]; done: () => void }): ReactNode {
  const { zone } = useMe();
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const close = useSend(closeForWeather, {
    refresh: ['closures'],
    said: 'Nothing is booked into this time any more.',
    then: done,
    undo:
      ({ id }) =>
      () =>
        liftClosure(id),
  });
  const tomorrow = DateTime.now().setZone(zone).plus({ days: 1 }).startOf('day');
  const start = { startsAt: localInput(tomorrow, zone), endsAt: localInput(tomorrow.plus({ days: 1 }), zone) };
  const fields = useFields({ ...start, reason: '', towns: [] as string[], outdoorOnly: false }, LABELS, close.error);
  const { values } = fields;
  const send = () =>
    close.mutate({ ...values, ...ids, startsAt: toInstant(values.startsAt, zone), endsAt: toInstant(values.endsAt, zone) });
  return (
    <Form
      error={close.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Close this time"
      busy={close.isPending}
      onSubmit={send}
      besides={
        <Button variant="default" onClick={done}>
          Leave without closing
        </Button>
      }
    >
      <SimpleGrid cols={{ base: 1, xs: 2, md: 3 }}>
        <TextInput {...fields.text('startsAt')} type="datetime-local" required />
        <TextInput {...fields.text('endsAt')} type="datetime-local" required />
        <TextInput {...fields.text('reason')} required description="Clients read it: ice storm, high wind" />
      </SimpleGrid>
      <Checkbox.Group {...fields.value('towns')} description="None ticked: the whole county" mt="sm">
        <Group gap="md" mt="xs">
          {towns.map((town) => (
            <Checkbox key={town} value={town} label={town} />
          ))}
        </Group>
      </Checkbox.Group>
      <Checkbox {...fields.check('outdoorOnly')} mt="md" />
    </Form>
  );
}
