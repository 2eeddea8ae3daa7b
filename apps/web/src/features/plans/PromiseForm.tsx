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

const LABELS = { exact: 'When the visit begins', from: 'Earliest', until: 'Latest', window: 'Earliest and latest' };

export function PromiseForm({ visit }: { visit: KeptVisit }): ReactNode {
  const { zone } = useMe();
  const save = useSend(promiseWindow, { refresh: ['kept', visit.id], said: 'Plans will keep to it.' });
  const time = (at: string): string => localInput(DateTime.fromISO(at), zone).slice(11);
  const day = localInput(DateTime.fromISO(visit.startsAt), zone).slice(0, 10);
  const first = { from: time(visit.window?.from ?? visit.startsAt), until: time(visit.window?.until ?? visit.startsAt), window: '' };
  const fields = useFields({ exact: visit.window ? 'window' : 'start', ...first }, LABELS, save.error);
  const { exact, from, until } = fields.values;
  const instant = (clock: string): string => toInstant(`${day}T${clock}`, zone);
  const window = exact === 'start' ? null : { from: instant(from), until: instant(until) };
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
      </Radio.Group>
      {exact === 'window' ? (
        <SimpleGrid cols={2} mt="sm">
          <TextInput {...fields.text('from')} type="time" required />
          <TextInput {...fields.text('until')} type="time" required />
        </SimpleGrid>
      ) : null}
    </Form>
  );
}
