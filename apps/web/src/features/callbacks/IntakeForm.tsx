// The intake: who speaks, what they say, and whether anybody is in danger.
import { useState, type ReactNode } from 'react';
import { Alert, Button, Checkbox, NativeSelect, SimpleGrid, Stack, Textarea, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { isLegal, KINDS, NO_ADMISSION, SAFETY_ADVICE, SPEAKERS, type FoundJob } from '@backsight/contract/callbacks';
import { firmQuery } from '../../api/firm.ts';
import { receiveCallback, type Intake } from '../../api/callbacks.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { atTheDesk, options, SYSTEMS } from './words.ts';

const LABELS = {
  kind: 'Kind',
  speaker: 'Who speaks',
  partyId: 'Which person',
  name: 'Name',
  email: 'E-mail',
  phone: 'Phone',
  ownerOnly: 'Only an owner sees this file',
  safety: 'Somebody may be in danger',
  system: 'System',
  place: 'Where in the house',
  words: 'What they say, in their words',
  remedySought: 'What they ask for',
  discoveredOn: 'Noticed on',
  servedOn: 'Served on',
  serviceWay: 'Way of service',
  deadlineOn: 'Deadline in the paper',
};
const BLANK = {
  kind: 'missed' as Intake['kind'],
  speaker: 'client' as Intake['speaker'],
  partyId: '',
  name: '',
  email: '',
  phone: '',
  ownerOnly: true,
  safety: false,
  system: 'electrical',
  place: '',
  words: '',
  remedySought: '',
  discoveredOn: '',
  servedOn: '',
  serviceWay: '',
  deadlineOn: '',
};
/** Chosen instead of a person of the job. */
const OUTSIDE = 'outside';
const FROM_THE_SITE = ['near_miss', 'damage_or_injury'];

export function IntakeForm({ job, onOther }: { job: FoundJob; onOther: () => void }): ReactNode {
  const me = useMe();
  const [{ id, key, newPartyId }] = useState(() => ({ id: newId(), key: newId(), newPartyId: newId() }));
  const phone = useQuery(firmQuery).data?.onCallPhone;
  const send = useSend(receiveCallback, { refresh: ['callbacks'], said: 'It was taken in.' });
  const desk = atTheDesk(me.roles);
  const client = job.parties.find(({ role }) => role === 'client');
  const fields = useFields(
    { ...BLANK, partyId: desk ? (client?.id ?? '') : '', kind: desk ? BLANK.kind : ('near_miss' as const) },
    LABELS,
    send.error,
  );
  const { kind, safety } = fields.values;
  if (send.data) return <Taken id={id} number={send.data.number} warnings={send.data.warnings.map(({ text }) => text)} readable={desk} />;
  const submit = () => send.mutate({ ...filled(fields.values, newPartyId), id, jobId: job.id, key });
  const kinds = options(KINDS).filter(({ value }) => desk || FROM_THE_SITE.includes(value));
  return (
    <Form
      error={send.error}
      labels={LABELS}
      submit="Take it in"
      busy={send.isPending}
      onSubmit={submit}
      besides={
        <Button variant="default" onClick={onOther}>
          Another job
        </Button>
      }
    >
      <p>{`Job ${job.number}: ${job.address}, ${job.town}. Inspected by ${job.pair.join(' and ') || 'nobody yet'}.`}</p>
      <Stack>
        <Checkbox {...fields.check('safety')} />
        {safety ? (
          <Alert title="Say this now">
            {SAFETY_ADVICE}
            {phone ? (
              <>
                <br />
                <strong>
                  Then call whoever is on call: <span style={{ whiteSpace: 'nowrap' }}>{phone}</span>
                </strong>
              </>
            ) : null}
          </Alert>
        ) : null}
        <NativeSelect {...fields.text('kind')} data={kinds} />
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <NativeSelect {...fields.text('speaker')} data={options(SPEAKERS)} />
          <NativeSelect
            {...fields.text('partyId')}
            data={[
              { value: '', label: 'Nobody is named' },
              ...job.parties.map((p) => ({ value: p.id, label: `${p.name}, ${p.role.replaceAll('_', ' ')}${p.signed ? ', signed' : ''}` })),
              { value: OUTSIDE, label: 'Somebody else' },
            ]}
          />
        </SimpleGrid>
        {fields.values.partyId === OUTSIDE ? (
          <SimpleGrid cols={{ base: 1, xs: 3 }}>
            <TextInput {...fields.text('name')} required />
            <TextInput {...fields.text('email')} type="email" />
            <TextInput {...fields.text('phone')} type="tel" />
          </SimpleGrid>
        ) : null}
        <SimpleGrid cols={{ base: 1, xs: 3 }}>
          <NativeSelect {...fields.text('system')} data={options(SYSTEMS)} />
          <TextInput {...fields.text('place')} required />
          <TextInput {...fields.text('discoveredOn')} type="date" />
        </SimpleGrid>
        {isLegal(kind) ? <Checkbox {...fields.check('ownerOnly')} /> : null}
        {isLegal(kind) ? (
          <SimpleGrid cols={{ base: 1, xs: 3 }}>
            <TextInput {...fields.text('servedOn')} type="date" required />
            <TextInput {...fields.text('serviceWay')} required />
            <TextInput {...fields.text('deadlineOn')} type="date" required />
          </SimpleGrid>
        ) : null}
        <Textarea {...fields.text('words')} required autosize minRows={4} />
        <TextInput {...fields.text('remedySought')} />
        {kind === 'question' || kind === 'near_miss' ? null : <p>{`Say it too: ${NO_ADMISSION}`}</p>}
      </Stack>
    </Form>
  );
}

/** Leaves out what was left empty; the papers' fields only count for legal papers. */
function filled(values: typeof BLANK, newPartyId: string): Omit<Intake, 'id' | 'jobId'> {
  const { partyId: chosen, name, email, phone, ownerOnly, discoveredOn, servedOn, serviceWay, deadlineOn, ...rest } = values;
  const paper = isLegal(values.kind) ? { servedOn, serviceWay, deadlineOn, ownerOnly } : {};
  const who =
    chosen === OUTSIDE
      ? { newParty: { id: newPartyId, name, email: email.trim() || null, phone: phone.trim() || null } }
      : { partyId: chosen };
  const optional = Object.entries({ ...who, discoveredOn, ...paper }).filter(([, value]) => value !== '');
  return { ...rest, ...Object.fromEntries(optional) };
}

function Taken({ id, number, warnings, readable }: { id: string; number: number; warnings: string[]; readable: boolean }): ReactNode {
  return (
    <div role="status">
      <p>{`It was taken in under number ${number}. Tell the caller this number.`}</p>
      {warnings.map((text) => (
        <Alert key={text} mb="sm" title="Before you go on">
          {text}
        </Alert>
      ))}
      {readable ? (
        <ButtonLink to="/callbacks/$callbackId" params={{ callbackId: id }}>
          Open it
        </ButtonLink>
      ) : (
        <ButtonLink to="/">Home</ButtonLink>
      )}
    </div>
  );
}
