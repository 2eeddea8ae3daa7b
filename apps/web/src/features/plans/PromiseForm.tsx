// The very start, or a window in which the visit may begin.
import type { ReactNode } from 'react';
import { Radio, SimpleGrid, TextInput } from '@mantine/core';
import { DateTime } from 'luxon';
import type { KeptVisit } from '@backsight/contract/plans/kept';
import { useMe } from '../../api/people.ts';
import { promiseWindow } from '../../api/plans.ts';
import { Form } from '../../ui/Form.tsx';
import { clockText, localInput, toInstant } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = {
  exact: 'When the visit begins',
  from: 'Earliest',
  until: 'Latest',
  firstDay: 'First day',
  lastDay: 'Last day',
  window: 'Earliest and latest',
};

export function PromiseForm({ visit }: { visit: KeptVisit }): ReactNode {
  const { zone } = useMe();
  const save = useSend(promiseWindow, { refresh: ['kept', visit.id], said: 'Plans will keep to it.' });
  const local = (at: string): string => localInput(DateTime.fromISO(at), zone);
  const begin = local(visit.window?.from ?? visit.startsAt);
  const end = local(visit.window?.until ?? visit.startsAt);
  const days = { firstDay: begin.slice(0, 10), lastDay: end.slice(0, 10) };
  const first = { from: begin.slice(11), until: end.slice(11), ...days, window: '' };
  const fields = useFields(
    { exact: !visit.window ? 'start' : days.firstDay === days.lastDay ? 'window' : 'days', ...first },
    LABELS,
    save.error,
  );
  const { exact, from, until } = fields.values;
  const day = local(visit.startsAt).slice(0, 10);
  const [firstDay, lastDay] = exact === 'days' ? [fields.values.firstDay, fields.values.lastDay] : [day, day];
  const window = exact === 'start' ? null : { from: toInstant(`${firstDay}T${from}`, zone), until: toInstant(`${lastDay}T${until}`, zone) };
  return (
    <Form
      error={save.error}
      labels={LABELS}
      submit="Keep this promise"
      busy={save.isPending}
      onSubmit={() => save.mutate({ id: visit.id, version: visit.version, window })}
    >
      <Radio.Group {...fields.value('exact')}>
        <Radio value="start" label={`At ${clockText(visit.startsAt, zone)}, as it was told`} mt="xs" />
        <Radio value="window" label="At some time in a window" mt="xs" />
        <Radio value="days" label="On any of several days: a plan of these days may choose the day" mt="xs" />
      </Radio.Group>
      {exact === 'start' ? null : (
        <SimpleGrid cols={2} mt="sm">
          {exact === 'days' ? (
            <>
              <TextInput {...fields.text('firstDay')} type="date" required />
              <TextInput {...fields.text('lastDay')} type="date" required />
            </>
          ) : null}
          <TextInput {...fields.text('from')} type="time" required />
          <TextInput {...fields.text('until')} type="time" required />
        </SimpleGrid>
      )}
    </Form>
  );
}
