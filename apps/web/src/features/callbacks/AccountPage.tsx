// What somebody of the pair saw and did, written on the phone before anything of the other's is seen.
import { useState, type ReactNode } from 'react';
import { Button, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { ACCOUNT_PROMPTS, type MyAccount } from '@backsight/contract/callbacks/opinions';
import { newId } from '../../api/ids.ts';
import { giveAccount, myAccountQuery } from '../../api/opinions.ts';
import { Form } from '../../ui/Form.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';

const route = getRouteApi('/shell/accounts/$callbackId');

export function AccountPage(): ReactNode {
  const { callbackId } = route.useParams();
  const { data, error, isPending } = useQuery(myAccountQuery(callbackId));
  return (
    <Page title="What you saw and did" width="narrow">
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Mine of={data} /> : null}
    </Page>
  );
}

function Mine({ of }: { of: MyAccount }): ReactNode {
  const { job, place, accounts } = of;
  const [further, setFurther] = useState(false);
  return (
    <>
      <p>
        Job {job.number}, {job.address}, {job.town}
        {job.inspectedOn ? (
          <>
            , <Day day={job.inspectedOn} />
          </>
        ) : null}
        . It is about: <strong>{place}</strong>.
      </p>
      <p>
        Write what you saw and did yourself, as you remember it, and say where you are not sure. Nobody asks whose fault anything is. Your
        partner is asked as well, alone.
      </p>
      {accounts.map((one) => (
        <Section key={one.id} title={one.seq === 1 ? 'Your account' : `Added, number ${one.seq}`}>
          <p style={{ whiteSpace: 'pre-wrap' }}>
            <strong>{ACCOUNT_PROMPTS.seen}</strong> {one.seen}
          </p>
          <p style={{ whiteSpace: 'pre-wrap' }}>
            <strong>{ACCOUNT_PROMPTS.did}</strong> {one.did}
          </p>
          <small>
            <When at={one.at} />
          </small>
        </Section>
      ))}
      {accounts.length === 0 || further ? (
        <Write id={of.id} further={further} onDone={() => setFurther(false)} />
      ) : (
        <>
          <p>It stays as you gave it.</p>
          <Button size="lg" variant="default" onClick={() => setFurther(true)}>
            Correct it or add to it
          </Button>
        </>
      )}
    </>
  );
}

const LABELS = ACCOUNT_PROMPTS as Record<'seen' | 'did', string>;

function Write({ id, further, onDone }: { id: string; further: boolean; onDone: () => void }): ReactNode {
  const [accountId] = useState(newId);
  const send = useSend(giveAccount, { refresh: ['my-account'], said: 'Your account is given.', then: onDone });
  const fields = useFields({ seen: '', did: '' }, LABELS, send.error, undefined, 'account');
  return (
    <Form
      error={send.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Give it"
      busy={send.isPending}
      onSubmit={() => send.mutate({ id, accountId, further, ...fields.values })}
      besides={
        further ? (
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        ) : undefined
      }
    >
      <Textarea {...fields.text('seen')} required autosize minRows={4} size="md" />
      <Textarea {...fields.text('did')} required autosize minRows={4} size="md" mt="md" />
    </Form>
  );
}
