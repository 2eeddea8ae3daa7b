// Who besides the client may get the report: the client's written consent, with who gave it, when and how, and its withdrawal.
import { useState, type ReactNode } from 'react';
import { NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import type { Register } from '@backsight/contract/sitework/reports';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { recordConsent } from '../../api/sitework.ts';
import { Form } from '../../ui/Form.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';
import classes from './sitework.module.css';

const HOW = { mail: 'by mail', paper: 'on paper', agreement: 'in the agreement' } as const;
const LABELS = { partyId: 'For', kind: 'What', clientId: 'By the client', how: 'How', givenOn: 'On', note: 'Where it is, in a few words' };

export function Recipients({ register }: { register: Register }): ReactNode {
  const { consents, parties } = register;
  const nameOf = (partyId: string) => parties.find((one) => one.partyId === partyId)?.name ?? 'somebody no longer on this job';
  const others = parties.filter(({ roles }) => !roles.includes('client'));
  return (
    <details className={classes.more}>
      <summary>Who else may get the report ({parties.filter(({ mayReceive }) => mayReceive).length} may)</summary>
      <p>The report is for the client. Anybody else gets it only with the client&apos;s written consent.</p>
      <ul>
        {consents.map((one) => (
          <li key={one.id}>
            {one.client} {one.kind === 'given' ? 'consented to' : 'took back the consent to'} {nameOf(one.partyId)} on{' '}
            <Day day={one.givenOn} />, {HOW[one.how]}
            {one.note ? ` (${one.note})` : ''}; noted by {one.takenBy}
          </li>
        ))}
      </ul>
      {others.length > 0 ? (
        <ConsentForm register={register} others={others} />
      ) : (
        <p className={classes.soft}>Nobody else is on this job.</p>
      )}
    </details>
  );
}

type Parties = Register['parties'];

function ConsentForm({ register, others }: { register: Register; others: Parties }): ReactNode {
  const me = useMe();
  const [id, setId] = useState(newId);
  const clients = register.parties.filter(({ roles }) => roles.includes('client'));
  const send = useSend(recordConsent, { refresh: ['jobs', register.jobId], said: 'The consent is on file.', then: () => setId(newId()) });
  const fields = useFields(
    {
      partyId: others[0]!.partyId,
      kind: 'given' as 'given' | 'withdrawn',
      clientId: clients[0]?.partyId ?? '',
      how: 'mail' as keyof typeof HOW,
      givenOn: todayIn(me.zone),
      note: '',
    },
    LABELS,
    send.error,
    'consent',
  );
  const options = (list: Parties) => list.map(({ partyId, name }) => ({ value: partyId, label: name }));
  return (
    <Form
      error={send.error}
      labels={LABELS}
      scope="consent"
      draft={fields.draft}
      submit="Put it on file"
      busy={send.isPending}
      onSubmit={() => send.mutate({ jobId: register.jobId, id, ...fields.values })}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <NativeSelect {...fields.text('partyId')} data={options(others)} />
        <NativeSelect
          {...fields.text('kind')}
          data={[
            { value: 'given', label: 'consent given' },
            { value: 'withdrawn', label: 'consent taken back' },
          ]}
        />
        <NativeSelect {...fields.text('clientId')} data={options(clients)} />
        <NativeSelect {...fields.text('how')} data={Object.entries(HOW).map(([value, label]) => ({ value, label }))} />
        <TextInput {...fields.text('givenOn')} type="date" required />
        <TextInput {...fields.text('note')} maxLength={300} />
      </SimpleGrid>
    </Form>
  );
}
