// Whether kinds of human error are recorded with a conclusion: off until an owner has asked the attorney.
import type { ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { allowErrorKinds, errorKindsQuery } from '../../api/opinions.ts';
import { Form } from '../../ui/Form.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';

const LABELS = { attorney: 'Attorney who was asked', askedOn: 'Day on which the attorney was asked' };

export function ErrorKinds({ mayChange }: { mayChange: boolean }): ReactNode {
  const { data, error } = useQuery(errorKindsQuery);
  return (
    <Section folds title="Kinds of human error">
      <ProblemNote of={error} />
      <p>
        A conclusion may name what kind of error happened at a step: a slip, a lapse, a mistake, a violation, or none. It belongs to the
        step and never to a person, and is read by owner and lead inspector alone. A court may ask for it all the same, so an attorney is
        asked first.
      </p>
      {data?.allowed ? (
        <p>
          {`On. ${data.attorney} was asked on `}
          <Day day={data.askedOn!} />
          {`; turned on by ${data.by}, `}
          <When at={data.at!} />.
        </p>
      ) : (
        <p>Off.</p>
      )}
      {data && mayChange ? data.allowed ? <TurnOff /> : <TurnOn /> : null}
    </Section>
  );
}

function TurnOff(): ReactNode {
  const send = useSend(allowErrorKinds, { refresh: ['error-kinds'], said: 'Kinds of error are off. What was recorded stays.' });
  return (
    <>
      <ProblemNote of={send.error} />
      <Button variant="default" loading={send.isPending} onClick={() => send.mutate({ allowed: false })}>
        Turn kinds of error off
      </Button>
    </>
  );
}

function TurnOn(): ReactNode {
  const send = useSend(allowErrorKinds, { refresh: ['error-kinds'], said: 'Kinds of error are on.' });
  const fields = useFields({ attorney: '', askedOn: '' }, LABELS, send.error, 'error-kinds');
  const { attorney, askedOn } = fields.values;
  const submit = () => send.mutate({ allowed: true, ...(attorney.trim() ? { attorney } : {}), ...(askedOn ? { askedOn } : {}) });
  return (
    <Form error={send.error} labels={LABELS} scope="error-kinds" submit="Turn kinds of error on" busy={send.isPending} onSubmit={submit}>
      <TextInput {...fields.text('attorney')} required maw="24rem" />
      <TextInput {...fields.text('askedOn')} type="date" required maw="14rem" mt="sm" />
    </Form>
  );
}
