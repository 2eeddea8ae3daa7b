// Access asked, agreed or refused, and how one gets in. Codes can be written and taken away here, never read.
import type { ReactNode } from 'react';
import { Button, Checkbox, NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { DateTime } from 'luxon';
import { type JobPage as Job, type NeedState } from '@backsight/contract/jobs';
import type { JobDesk } from '@backsight/contract/jobs/desk';
import { deskQuery, noteAccess } from '../../api/desk.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { localInput, toInstant } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

const LABELS = {
  state: 'Access is',
  who: 'Who said so',
  how: 'What was said (no codes here)',
  opener: 'Who opens',
  phone: 'Phone',
  opensAt: 'There from',
  keyBox: 'Key-box code',
  alarm: 'Alarm code',
  pets: 'Pets',
  tenantTold: 'The tenant was told',
};
const STATES: { value: NeedState; label: string }[] = [
  { value: 'settled', label: 'agreed' },
  { value: 'asked', label: 'asked' },
  { value: 'refused', label: 'refused' },
  { value: 'open', label: 'not asked yet' },
];
type Need = Job['needs'][number];
type Props = { need: Need; job: Job; onDone: () => void };

export function AccessForm(props: Props): ReactNode {
  const desk = useQuery(deskQuery(props.job.id)).data;
  return <div className={classes.inline}>{desk ? <Known {...props} access={desk.access} /> : <Loading />}</div>;
}

function Known({ need, job, access, onDone }: Props & { access: JobDesk['access'] }): ReactNode {
  const { zone } = useMe();
  const send = useChange(noteAccess, 'The access is noted.', onDone);
  const details = need.details as Record<string, string | undefined>;
  const fields = useFields(
    {
      state: 'settled' as NeedState,
      who: details.who ?? '',
      how: details.how ?? '',
      opener: access?.opener ?? '',
      phone: access?.phone ?? '',
      opensAt: access?.opensAt ? localInput(DateTime.fromISO(access.opensAt, { zone }), zone) : '',
      keyBox: '',
      alarm: '',
      pets: access?.pets ?? '',
      tenantTold: false,
    },
    LABELS,
    send.error,
    'access',
  );
  const { keyBox, alarm, opensAt, ...said } = fields.values;
  const save = () =>
    send.mutate({
      id: job.id,
      version: job.version,
      ...said,
      opensAt: opensAt === '' ? null : toInstant(opensAt, zone),
      ...(keyBox === '' ? {} : { keyBox }),
      ...(alarm === '' ? {} : { alarm }),
    });
  const kept = (has: boolean | undefined) => (has ? 'On file; a new one replaces it' : 'Shown only to the people of the visit');
  const tenant = job.needs.some(({ kind, state }) => kind === 'tenant_notice' && state !== 'settled');
  return (
    <Form
      error={send.error}
      labels={LABELS}
      scope="access"
      draft={fields.draft}
      submit="Save"
      busy={send.isPending}
      onSubmit={save}
      besides={
        <Button variant="default" onClick={onDone}>
          Leave it
        </Button>
      }
    >
      <SimpleGrid cols={{ base: 1, xs: 2, md: 3 }}>
        <NativeSelect {...fields.text('state')} data={STATES} autoFocus />
        <TextInput {...fields.text('who')} maxLength={120} />
        <TextInput {...fields.text('how')} maxLength={500} />
        <TextInput {...fields.text('opener')} maxLength={120} />
        <TextInput {...fields.text('phone')} maxLength={40} />
        <TextInput {...fields.text('opensAt')} type="datetime-local" />
        <TextInput {...fields.text('keyBox')} maxLength={40} description={kept(access?.hasKeyBox)} autoComplete="off" />
        <TextInput {...fields.text('alarm')} maxLength={80} description={kept(access?.hasAlarm)} autoComplete="off" />
        <TextInput {...fields.text('pets')} maxLength={200} />
      </SimpleGrid>
      {tenant ? <Checkbox {...fields.check('tenantTold')} mt="sm" /> : null}
    </Form>
  );
}
