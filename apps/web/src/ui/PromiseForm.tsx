// What the client is told of a visit: the very start, or a window in which it may begin. Plans keep to it.
import type { ReactNode } from 'react';
import { Radio, SimpleGrid, TextInput } from '@mantine/core';
import type { QueryKey } from '@tanstack/react-query';
import { useMe } from '../api/people.ts';
import { promiseWindow } from '../api/plans.ts';
import { Form } from './Form.tsx';
import { clockText, localInput, toInstant } from './time.ts';
import { useFields } from './useFields.ts';
import { useSend } from './useSend.ts';

const LABELS = {
  exact: 'When the visit begins',
  from: 'Earliest',
  until: 'Latest',
  firstDay: 'First day',
  lastDay: 'Last day',
  window: 'Earliest and latest',
};

/** Minutes before and after the start that a new window offers. */
const AROUND = 30;

export type PromisedVisit = { id: string; version: number; startsAt: string; window: { from: string; until: string } | null };
type Props = { visit: PromisedVisit; refresh: QueryKey; besides?: ReactNode; done?: () => void };

/** `refresh`: the queries that show the visit. */
export function PromiseForm({ visit, refresh, besides, done }: Props): ReactNode {
  const { zone } = useMe();
  const save = useSend(promiseWindow, { refresh, said: 'Plans will keep to it.', then: () => done?.() });
  const local = (at: string, minutes = 0): string => localInput(new Date(Date.parse(at) + minutes * 60_000), zone);
  const begin = visit.window ? local(visit.window.from) : local(visit.startsAt, -AROUND);
  const end = visit.window ? local(visit.window.until) : local(visit.startsAt, AROUND);
  const days = { firstDay: begin.slice(0, 10), lastDay: end.slice(0, 10) };
  const first = { from: begin.slice(11), until: end.slice(11), ...days, window: '' };
  const fields = useFields(
    { exact: !visit.window ? 'start' : days.firstDay === days.lastDay ? 'window' : 'days', ...first },
    LABELS,
    save.error,
    visit.id,
  );
  const { exact, from, until } = fields.values;
  const day = local(visit.startsAt).slice(0, 10);
  const [firstDay, lastDay] = exact === 'days' ? [fields.values.firstDay, fields.values.lastDay] : [day, day];
  const window = exact === 'start' ? null : { from: toInstant(`${firstDay}T${from}`, zone), until: toInstant(`${lastDay}T${until}`, zone) };
  return (
    <Form
      error={save.error}
      labels={LABELS}
      scope={visit.id}
      draft={fields.draft}
      submit="Keep this promise"
      busy={save.isPending}
      besides={besides}
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
