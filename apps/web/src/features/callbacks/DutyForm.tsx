// Puts somebody on the on-call list, or as an exception off it for some days.
import { useState, type ReactNode } from 'react';
import { Checkbox, Group, NativeSelect, NumberInput, SimpleGrid, TextInput } from '@mantine/core';
import type { OnCallList } from '@backsight/contract/callbacks/onCall';
import { addDuty, removeDuty } from '../../api/callbackClocks.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { minuteOf, WEEKDAYS } from '../../ui/clock.ts';
import { numberTyped } from '../../ui/amount.ts';
import { Form } from '../../ui/Form.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = {
  personId: 'Who',
  on: 'What',
  position: 'Order: 1 is alerted first',
  weekdays: 'Days on which it begins',
  startMinute: 'From',
  endMinute: 'Until; the next day when it is not later',
  fromDay: 'First day',
  untilDay: 'Last day; blank: until it is taken off',
};
const KINDS = [
  { value: 'on', label: 'is on call' },
  { value: 'off', label: 'is not on call (exception)' },
];

/** An input of time has no 24:00: midnight at the end of a day is 1440. */
const ends = (clock: string): number => minuteOf(clock) || 1440;

export function DutyForm({ people }: { people: OnCallList['people'] }): ReactNode {
  const { zone } = useMe();
  const [id, renew] = useState(newId);
  const save = useSend(addDuty, {
    refresh: ['on-call'],
    said: 'The list was changed.',
    then: () => renew(newId()),
    undo: (sent) => () => removeDuty(sent.id),
  });
  const fields = useFields(
    {
      ...{ personId: people[0]?.id ?? '', on: 'on', position: 1, weekdays: ['1', '2', '3', '4', '5'] },
      ...{ startMinute: '17:00', endMinute: '08:00', fromDay: todayIn(zone), untilDay: '' },
    },
    LABELS,
    save.error,
  );
  const { personId, on, position, weekdays, startMinute, endMinute, fromDay, untilDay } = fields.values;
  const send = () =>
    save.mutate({
      ...{ id, personId, on: on === 'on', position: numberTyped(position), weekdays: weekdays.map(Number) },
      ...{ startMinute: minuteOf(startMinute) ?? 0, endMinute: ends(endMinute), fromDay, untilDay: untilDay || null },
    });
  const week = fields.value('weekdays');
  return (
    <Section title="Add a line">
      <Form error={save.error} labels={LABELS} draft={fields.draft} submit="Add this line" busy={save.isPending} onSubmit={send}>
        <SimpleGrid cols={{ base: 1, xs: 3 }}>
          <NativeSelect {...fields.text('personId')} data={people.map(({ id: one, name }) => ({ value: one, label: name }))} />
          <NativeSelect {...fields.text('on')} data={KINDS} />
          <NumberInput {...fields.number('position')} min={1} max={99} />
          <TextInput {...fields.text('startMinute')} type="time" required />
          <TextInput {...fields.text('endMinute')} type="time" required />
          <span />
          <TextInput {...fields.text('fromDay')} type="date" required />
          <TextInput {...fields.text('untilDay')} type="date" />
        </SimpleGrid>
        <Checkbox.Group
          mt="sm"
          id={week.id}
          label={week.label}
          error={week.error}
          value={weekdays}
          onChange={(chosen) => fields.set('weekdays', chosen)}
        >
          <Group mt="xs">
            {WEEKDAYS.map((name, at) => (
              <Checkbox key={name} value={String(at + 1)} label={name} />
            ))}
          </Group>
        </Checkbox.Group>
      </Form>
    </Section>
  );
}
