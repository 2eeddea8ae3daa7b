// The intake: who speaks, what they say, and whether anybody is in danger.
import { useState, type ReactNode } from 'react';
import { Alert, Button, Checkbox, NativeSelect, SimpleGrid, Stack, Textarea, TextInput } from '@mantine/core';
import { isLegal, KINDS, NO_ADMISSION, SAFETY_ADVICE, SPEAKERS, type FoundJob } from '@backsight/contract/callbacks';
import { receiveCallback, type Intake } from '../../api/callbacks.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { atTheDesk, options, SYSTEMS } from './words.ts';

const LABELS = {
  kind: 'Kind', speaker: 'Who speaks', partyId: 'Which person of the job', safety: 'Somebody may be in danger', system: 'System', place: 'Where in the house', words: 'What they say, in their words', remedySought: 'What they ask for',
  discoveredOn: 'Noticed on', servedOn: 'Served on', serviceWay: 'Way of service', deadlineOn: 'Deadline in the paper',
};
const BLANK = { kind: 'missed' as Intake['kind'], speaker: 'client' as Intake['speaker'], partyId: '', safety: false, system: 'electrical', place: '', words: '', remedySought: '', discoveredOn: '', servedOn: '', serviceWay: '', deadlineOn: '' };
const FROM_THE_SITE = ['near_miss', 'damage_or_injury'];

export function IntakeForm({ job, onOther }: { job: FoundJob; onOther: () => void }): ReactNode {
  const me = useMe();
  const [{ id, key }] = useState(() => ({ id: newId(), key: newId() }));
  const send = useSend(receiveCallback, { refresh: ['callbacks'], said: 'It was taken in.' });
  const desk = atTheDesk(me.roles);
  const client = job.parties.find(({ role }) => role === 'client');
  const fields = useFields({ ...BLANK, partyId: desk ? (client?.id ?? '') : '', kind: desk ? BLANK.kind : ('near_miss' as const) }, LABELS, send.error);
  const { kind, safety } = fields.values;
  if (send.data) return <Taken id={id} number={send.data.number} warnings={send.data.warnings.map(({ text }) => text)} readable={desk} />;
  const submit = () => send.mutate({ ...filled(fields.values), id, jobId: job.id, key });
  const kinds = options(KINDS).filter(({ value }) => desk || FROM_THE_SITE.includes(value));
  return (
    <Form error={send.error} labels={LABELS} submit="Take it in" busy={send.isPending} onSubmit={submit} besides={<Button variant="default" onClick={onOther}>Another job</Button>}>
      <p>{`Job ${job.number}: ${job.address}, ${job.town}. Inspected by ${job.pair.join(' and ') || 'nobody yet'}.`}</p>
      <Stack>
        <Checkbox {...fields.check('safety')} />
        {safety ? <Alert title="Say this now">{SAFETY_ADVICE}</Alert> : null}
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <NativeSelect {...fields.text('kind')} data={kinds} />
          <NativeSelect {...fields.text('speaker')} data={options(SPEAKERS)} />
          <NativeSelect {...fields.text('partyId')} data={[{ value: '', label: 'Nobody of them' }, ...job.parties.map((p) => ({ value: p.id, label: `${p.name}, ${p.role.replaceAll('_', ' ')}${p.signed ? ', signed' : ''}` }))]} />
          <NativeSelect {...fields.text('system')} data={options(SYSTEMS)} />
          <TextInput {...fields.text('place')} required />
          <TextInput {...fields.text('discoveredOn')} type="date" />
        </SimpleGrid>
        {isLegal(kind) ? (
          <SimpleGrid cols={{ base: 1, xs: 3 }}>
            <TextInput {...fields.text('servedOn')} type="date" required />
            <TextInput {...fields.text('serviceWay')} required />
            <TextInput {...fields.text('deadlineOn')} type="date" required description="Only an owner sees this file" />
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
function filled(values: typeof BLANK): Omit<Intake, 'id' | 'jobId'> {
  const { partyId, discoveredOn, servedOn, serviceWay, deadlineOn, ...rest } = values;
  const paper = isLegal(values.kind) ? { servedOn, serviceWay, deadlineOn } : {};
  const optional = Object.entries({ partyId, discoveredOn, ...paper }).filter(([, value]) => value !== '');
  return { ...rest, ...Object.fromEntries(optional) };
}

function Taken({ id, number, warnings, readable }: { id: string; number: number; warnings: string[]; readable: boolean }): ReactNode {
  return (
    <div role="status">
      <p>{`It was taken in under number ${number}. Tell the caller this number.`}</p>
      {warnings.map((text) => <Alert key={text} mb="sm" title="Before you go on">{text}</Alert>)}
      {readable ? <ButtonLink to="/callbacks/$callbackId" params={{ callbackId: id }}>Open it</ButtonLink> : <ButtonLink to="/">Home</ButtonLink>}
    </div>
  );
}
