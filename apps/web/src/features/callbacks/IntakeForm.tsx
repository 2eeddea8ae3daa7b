// The intake: who speaks, what they say, and whether anybody is in danger.
import { useState, type ReactNode } from 'react';
import { Alert, Button, Checkbox, NativeSelect, SimpleGrid, Stack, Text, Textarea, TextInput } from '@mantine/core';
import { isLegal, KINDS, needsVisit, NO_ADMISSION, SPEAKERS, type FoundJob } from '@backsight/contract/callbacks';
import { listed } from '@backsight/domain/shared/phrases';
import { receiveCallback, type Intake } from '../../api/callbacks.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { useFields, type Fields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { BLANK, filled, LABELS, OUTSIDE, type IntakeValues } from './intakeFields.ts';
import { CaughtPart, EarlierHere, MailPart, PaperPart } from './IntakeParts.tsx';
import { SayNow } from './SayNow.tsx';
import { SendLink } from './SendLink.tsx';
import { atTheDesk, options, SYSTEMS } from './words.ts';

const FROM_THE_SITE = ['near_miss', 'damage_or_injury'];
const CAME = { desk: 'Told to the office', mail: 'By e-mail' };

type Props = { job: FoundJob; kind?: Intake['kind']; onOther: () => void };

export function IntakeForm({ job, kind: asked, onOther }: Props): ReactNode {
  const me = useMe();
  const [{ id, key, newPartyId }] = useState(() => ({ id: newId(), key: newId(), newPartyId: newId() }));
  const send = useSend(receiveCallback, { refresh: ['callbacks'], said: 'It was taken in.' });
  const desk = atTheDesk(me.roles);
  const fields = useFields(begin(job, desk, asked), LABELS, send.error);
  const { kind, safety, dangers, way } = fields.values;
  if (send.data) return <Taken id={id} number={send.data.number} warnings={send.data.warnings.map(({ text }) => text)} readable={desk} />;
  const submit = () => send.mutate({ ...filled(fields.values, newPartyId, me.zone), id, jobId: job.id, key });
  const nearMiss = kind === 'near_miss';
  return (
    <Form
      error={send.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Take it in"
      busy={send.isPending}
      onSubmit={submit}
      besides={
        <Button variant="default" onClick={onOther}>
          Another job
        </Button>
      }
    >
      <p>{`Job ${job.number}: ${job.address}, ${job.town}. Inspected by ${listed(job.pair, 'and') || 'nobody yet'}.`}</p>
      {job.inspectedOn ? null : (
        <Alert mb="sm" title="Nobody has been at this house yet for this job">
          Something missed, damage, a question about the report or a near-miss cannot be about it. If that is what they say, choose another
          job.
        </Alert>
      )}
      <Stack>
        <Checkbox {...fields.check('safety')} />
        {safety ? <SayNow dangers={dangers} onChange={(value) => fields.set('dangers', value)} /> : null}
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <NativeSelect {...fields.text('kind')} data={kindsOf(job, desk).map((value) => ({ value, label: KINDS[value] }))} />
          {desk && !nearMiss ? <NativeSelect {...fields.text('way')} data={options(CAME)} /> : null}
        </SimpleGrid>
        {way === 'mail' && !nearMiss ? <MailPart fields={fields} /> : null}
        <WhoSpeaks fields={fields} job={job} />
        <SimpleGrid cols={{ base: 1, xs: 3 }}>
          <NativeSelect {...fields.text('system')} data={options(SYSTEMS)} />
          <TextInput {...fields.text('place')} required />
          <TextInput {...fields.text('discoveredOn')} type="date" />
        </SimpleGrid>
        {isLegal(kind) ? <Checkbox {...fields.check('ownerOnly')} /> : null}
        {isLegal(kind) ? <PaperPart fields={fields} /> : null}
        {nearMiss ? <CaughtPart fields={fields} jobId={job.id} /> : null}
        <Textarea {...fields.text('words')} required autosize minRows={4} />
        {nearMiss ? null : <TextInput {...fields.text('remedySought')} />}
        {desk && !nearMiss ? <EarlierHere fields={fields} jobId={job.id} /> : null}
        {kind === 'question' || nearMiss ? null : <Text>{`Say it too: ${NO_ADMISSION}`}</Text>}
        {desk && !nearMiss ? <SendLink job={job} /> : null}
      </Stack>
    </Form>
  );
}

/** Before anybody was there, only what needs no visit. */
const kindsOf = (job: FoundJob, desk: boolean): Intake['kind'][] =>
  (Object.keys(KINDS) as Intake['kind'][]).filter(
    (kind) => (desk || FROM_THE_SITE.includes(kind)) && (job.inspectedOn !== null || !needsVisit(kind)),
  );

/** A near-miss is said by the pair; everything else begins with the client. */
function begin(job: FoundJob, desk: boolean, asked?: Intake['kind']): IntakeValues {
  const offered = kindsOf(job, desk);
  const wanted = asked ?? (desk ? BLANK.kind : 'near_miss');
  const kind = offered.includes(wanted) ? wanted : (offered[0] ?? wanted);
  if (kind === 'near_miss') return { ...BLANK, kind, speaker: 'pair', caughtBy: desk ? 'lead' : 'partner' };
  return { ...BLANK, kind, partyId: (desk && job.parties.find(({ role }) => role === 'client')?.id) || '' };
}

function WhoSpeaks({ fields, job }: { fields: Fields<IntakeValues>; job: FoundJob }): ReactNode {
  const { partyId, kind } = fields.values;
  const party = job.parties.find(({ id }) => id === partyId);
  return (
    <>
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
      {partyId === OUTSIDE ? (
        <SimpleGrid cols={{ base: 1, xs: 3 }}>
          <TextInput {...fields.text('name')} required />
          <TextInput {...fields.text('email')} type="email" />
          <TextInput {...fields.text('phone')} type="tel" />
        </SimpleGrid>
      ) : null}
      {kind === 'near_miss' ? null : (
        <Text>
          {party?.signed
            ? `${party.name} signed the agreement: cap, notice clause and claim window apply.`
            : 'Cap, notice clause and claim window apply only to those who signed the agreement, so not here.'}
        </Text>
      )}
    </>
  );
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
