// Opinions besides conclusion and money: accounts of the pair, and counsel's mark. Only owner and lead inspector have them on their screen.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Callback } from '@backsight/contract/callbacks';
import { ACCOUNT_PROMPTS, type CallbackOpinions } from '@backsight/contract/callbacks/opinions';
import { newId } from '../../api/ids.ts';
import { askAccount, markForCounsel, opinionsQuery } from '../../api/opinions.ts';
import { Form } from '../../ui/Form.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import { useOneOpen } from './oneOpen.tsx';

export function Opinions({ callback: { id, state } }: { callback: Callback }): ReactNode {
  const { data, error } = useQuery(opinionsQuery(id));
  if (!data) return <ProblemNote of={error} />;
  return (
    <>
      <Section title="Accounts of the pair">
        <Accounts id={id} accounts={data.accounts} closed={state === 'closed'} />
      </Section>
      <Section
        title="For counsel"
        brief="A mark alone creates no privilege: whether these words may stay with the firm is for an attorney and a court to judge."
      >
        <Marks id={id} marks={data.marks} />
      </Section>
    </>
  );
}

type AccountsProps = { id: string; accounts: CallbackOpinions['accounts']; closed: boolean };

function Accounts({ id, accounts: { people, toAsk, mayRead }, closed }: AccountsProps): ReactNode {
  return (
    <>
      {people.length === 0 && toAsk.length === 0 ? <p>Nobody of the firm was at the property.</p> : null}
      {mayRead ? null : <p>You were on this job: give your own account first, then you read what was given.</p>}
      {people.map((person) => (
        <div key={person.personId}>
          <p>
            <strong>{person.name}</strong>,{' '}
            {person.given ? (
              'given'
            ) : (
              <>
                waiting for it; {`asked by ${person.askedBy}, `}
                <When at={person.askedAt} />
              </>
            )}
          </p>
          {person.accounts.map((one) => (
            <blockquote key={one.id} style={{ margin: '0 0 var(--bs-space-4)', whiteSpace: 'pre-wrap' }}>
              {one.seq === 1 ? '' : 'Added later. '}
              <strong>{ACCOUNT_PROMPTS.seen}</strong> {one.seen}
              {'\n'}
              <strong>{ACCOUNT_PROMPTS.did}</strong> {one.did}
              {'\n'}
              <small>
                <When at={one.at} />
              </small>
            </blockquote>
          ))}
        </div>
      ))}
      {closed ? null : (
        <Group>
          {toAsk.map((person) => (
            <Ask key={person.id} id={id} person={person} />
          ))}
        </Group>
      )}
    </>
  );
}

function Ask({ id, person }: { id: string; person: { id: string; name: string } }): ReactNode {
  const [requestId] = useState(newId);
  const send = useSend(askAccount, { refresh: ['callbacks'], said: `${person.name} is asked by mail and on the home.` });
  return (
    <div>
      <ProblemNote of={send.error} />
      <Button
        variant="default"
        h="auto"
        mih={36}
        py={6}
        styles={{ label: { whiteSpace: 'normal', lineHeight: 1.3 } }}
        loading={send.isPending}
        onClick={() => send.mutate({ id, requestId, personId: person.id })}
      >
        Ask {person.name} what was seen and done
      </Button>
    </div>
  );
}

function Marks({ id, marks }: { id: string; marks: CallbackOpinions['marks'] }): ReactNode {
  const [open, setOpen] = useOneOpen('counsel');
  return (
    <>
      {marks.map((mark) => (
        <p key={mark.id}>
          {`The opinions of this callback are marked as prepared at counsel’s request: ${mark.counsel}, request of `}
          <Day day={mark.requestedOn} />
          {`. Marked by ${mark.by}, `}
          <When at={mark.at} />.
        </p>
      ))}
      {open ? (
        <MarkForm id={id} onDone={() => setOpen(false)} />
      ) : (
        <Button variant="default" onClick={() => setOpen(true)}>
          Mark as prepared at counsel’s request
        </Button>
      )}
    </>
  );
}

const LABELS = { counsel: 'Name of counsel', requestedOn: 'Day of the request' };

function MarkForm({ id, onDone }: { id: string; onDone: () => void }): ReactNode {
  const [markId] = useState(newId);
  const send = useSend(markForCounsel, { refresh: ['callbacks'], said: 'The opinions are marked.', then: onDone });
  const fields = useFields({ counsel: '', requestedOn: '' }, LABELS, send.error, 'counsel');
  return (
    <Form
      error={send.error}
      labels={LABELS}
      scope="counsel"
      submit="Mark them"
      busy={send.isPending}
      onSubmit={() => send.mutate({ id, markId, ...fields.values })}
      besides={
        <Button variant="default" onClick={onDone}>
          Go back
        </Button>
      }
    >
      <TextInput {...fields.text('counsel')} required maw="24rem" />
      <TextInput {...fields.text('requestedOn')} type="date" required maw="12rem" mt="sm" />
    </Form>
  );
}
