// One mail: how it went, its words, and what can be done: try again, note that it came back, send it anew.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import type { MailShown } from '@backsight/contract/mail';
import { newId } from '../../api/ids.ts';
import { noteBounce, sendAnew, tryAgain } from '../../api/mail.ts';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { STATES } from './words.ts';

export function State({ mail }: { mail: MailShown }): ReactNode {
  const { state, lastError, nextTryAt, maybeTwice, resendOf } = mail;
  if (state === 'waiting' && lastError)
    return (
      <>
        waiting, tried again <When at={nextTryAt} />: {lastError}
      </>
    );
  return (
    <>
      {STATES[state]}
      {lastError ? `: ${lastError}` : ''}
      {resendOf ? ', sent anew' : ''}
      {maybeTwice > 0 ? `, may have arrived ${maybeTwice + 1} times` : ''}
    </>
  );
}

export function Letter({ mail }: { mail: MailShown }): ReactNode {
  const { id, state, attempts, invitation, attachments } = mail;
  const [key] = useState(newId);
  const again = useSend(tryAgain, { refresh: ['mail'], said: 'The mail is tried again within seconds.' });
  const goesAlong = [...(invitation ? ['a calendar entry'] : []), ...attachments];
  return (
    <>
      <p>
        To {mail.toName}, {mail.toAddress}. <State mail={mail} />.
      </p>
      {goesAlong.length > 0 ? <p>With it: {goesAlong.join(', ')}.</p> : null}
      <pre style={{ whiteSpace: 'pre-wrap', overflowWrap: 'anywhere', font: 'inherit' }}>{mail.body}</pre>
      <ProblemNote of={again.error} />
      {state === 'given_up' || (state === 'waiting' && attempts > 0) ? (
        <Button loading={again.isPending} onClick={() => again.mutate({ id, key })}>
          Try again now
        </Button>
      ) : null}
      {state === 'sent' ? <CameBack id={id} /> : null}
      {state === 'waiting' ? null : <Anew mail={mail} />}
    </>
  );
}

function CameBack({ id }: { id: string }): ReactNode {
  const [key] = useState(newId);
  const { values, setValues, draft } = useDraft({ reason: '' }, `came back ${id}`);
  const note = useSend(noteBounce, { refresh: ['mail'], said: 'It is noted, and the address is marked.' });
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        whileSending(draft, () => note.mutate({ id, key, ...values }));
      }}
    >
      <Kept draft={draft} />
      <ProblemNote of={note.error} />
      <Group align="flex-end" mt="md">
        <TextInput
          label="It came back; what the answer says"
          value={values.reason}
          onChange={(event) => setValues({ reason: event.currentTarget.value })}
          required
        />
        <Button type="submit" variant="default" loading={note.isPending}>
          Note that it came back
        </Button>
      </Group>
    </form>
  );
}

function Anew({ mail }: { mail: MailShown }): ReactNode {
  const { values, setValues, draft } = useDraft({ address: mail.toAddress }, `anew ${mail.id}`);
  const address = values.address.trim();
  const send = useSend(sendAnew, { refresh: ['mail'], said: 'The words go out again as a new mail.' });
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        whileSending(draft, () => send.mutate({ id: mail.id, key: newId(), toAddress: address === mail.toAddress ? null : address }));
      }}
    >
      <Kept draft={draft} />
      <ProblemNote of={send.error} />
      <Group align="flex-end" mt="md">
        <TextInput
          label="Send it anew to"
          type="email"
          value={values.address}
          onChange={(event) => setValues({ address: event.currentTarget.value })}
          required
        />
        <Button type="submit" variant="default" loading={send.isPending}>
          Send anew
        </Button>
      </Group>
    </form>
  );
}
