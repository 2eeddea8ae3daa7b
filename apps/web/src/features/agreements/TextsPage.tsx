// The firm's agreement texts, and whether an attorney has reviewed them.
import { useState, type ReactNode } from 'react';
import { Button, Modal, TextInput } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { AgreementTextShown } from '@backsight/contract/agreements';
import { recordApproval, textsQuery } from '../../api/agreements.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { Day, When } from '../../ui/When.tsx';
import { Paper } from './Paper.tsx';

export function TextsPage(): ReactNode {
  const texts = useQuery(textsQuery);
  return (
    <Page
      title="Agreement texts"
      about="The words that clients sign. A text is an example until an attorney has approved it."
      width="narrow"
    >
      <ProblemNote of={texts.error} />
      {texts.isPending ? <Loading /> : null}
      {texts.data?.map((text) => (
        <Text key={text.id} text={text} />
      ))}
    </Page>
  );
}

function Text({ text }: { text: AgreementTextShown }): ReactNode {
  const me = useMe();
  const [asking, setAsking] = useState(false);
  return (
    <section>
      <h2>
        {text.title}, number {text.number}
      </h2>
      <p>
        {text.inForceFrom ? (
          <>
            In force since <When at={text.inForceFrom} />.
          </>
        ) : (
          'Not in force.'
        )}
      </p>
      {text.attorney && text.attorneyOn ? (
        <p>
          Approved by {text.attorney} on <Day day={text.attorneyOn} />.
        </p>
      ) : (
        <p>
          <strong>An example that no attorney has reviewed.</strong> Every agreement made from it says so.
        </p>
      )}
      {!text.attorney && me.roles.includes('owner') ? (
        <Button variant="default" onClick={() => setAsking(true)}>
          Record an attorney&apos;s approval
        </Button>
      ) : null}
      <Paper title="Read the text" body={text.body} />
      <Paper title="Consent to electronic records" body={text.consentText} />
      <Modal opened={asking} onClose={() => setAsking(false)} title="An attorney's approval" closeButtonProps={{ 'aria-label': 'Close' }}>
        <Approval textId={text.id} onDone={() => setAsking(false)} />
      </Modal>
    </section>
  );
}

const LABELS = { attorney: 'Who approved it', on: 'On' };

function Approval({ textId, onDone }: { textId: string; onDone: () => void }): ReactNode {
  const { zone } = useMe();
  const queries = useQueryClient();
  const [key] = useState(newId);
  const save = useMutation({
    mutationFn: recordApproval,
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['agreements'] });
      saved('The approval was recorded.');
      onDone();
    },
  });
  const fields = useFields({ attorney: '', on: todayIn(zone) }, LABELS, save.error, 'approval');
  return (
    <Form
      error={save.error}
      labels={LABELS}
      scope="approval"
      submit="Record the approval"
      busy={save.isPending}
      onSubmit={() => save.mutate({ textId, key, ...fields.values })}
    >
      <TextInput {...fields.text('attorney')} maxLength={160} data-autofocus />
      <TextInput {...fields.text('on')} mt="sm" type="date" />
    </Form>
  );
}
