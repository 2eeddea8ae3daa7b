// Decides about one absence that was asked for: approve it, visits kept on purpose, or refuse it with a reason.
import type { ReactNode } from 'react';
import { Button, Checkbox, TextInput } from '@mantine/core';
import { spanInWords } from '@backsight/domain/shared/span';
import type { PersonFile } from '@backsight/contract/people/file';
import { useMe } from '../../api/people.ts';
import { decideAbsence } from '../../api/personFile.ts';
import { Follows } from '../Follows.tsx';
import { Form } from '../Form.tsx';
import { useFields } from '../useFields.ts';
import { useSend } from '../useSend.ts';

const LABELS = { reason: 'Reason, sent to the person', keepVisits: 'Keep these visits booked for now; the office places them anew' };

type Props = { personId: string; absence: PersonFile['absences'][number]; done?: () => void };

export function DecideAbsence({ personId, absence, done }: Props): ReactNode {
  const { zone } = useMe();
  const scope = `decide-${absence.id}`;
  const decide = useSend(decideAbsence, {
    refresh: ['people', personId, 'file'],
    said: 'It is decided. The person gets a mail.',
    ...(done ? { then: done } : {}),
  });
  const fields = useFields({ reason: '', keepVisits: false }, LABELS, decide.error, scope);
  const send = (approve: boolean) => decide.mutate({ id: absence.id, approve, ...fields.values });
  return (
    <div
      role="group"
      aria-label="Absence asked for"
      style={{
        border: '1px solid var(--bs-line)',
        borderRadius: 'var(--bs-radius)',
        padding: 'var(--bs-space-5) var(--bs-space-6)',
        marginBottom: 'var(--bs-space-6)',
      }}
    >
      <p style={{ marginTop: 0 }}>
        Asks to be away: {spanInWords(new Date(absence.startsAt), new Date(absence.endsAt), zone)}
        {absence.reason ? `: ${absence.reason}` : ''}
      </p>
      <Form
        error={decide.error}
        labels={LABELS}
        scope={scope}
        submit="Approve"
        busy={decide.isPending}
        onSubmit={() => send(true)}
        besides={
          <Button variant="default" disabled={decide.isPending} onClick={() => send(false)}>
            Refuse
          </Button>
        }
      >
        {absence.hits.length > 0 ? (
          <>
            <p>Booked in it:</p>
            <ul>
              {absence.hits.map((text) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
            <Checkbox {...fields.check('keepVisits')} mb="sm" />
          </>
        ) : null}
        <TextInput {...fields.text('reason')} description="Needed for a refusal" />
        <Follows>The person gets a mail with the decision and the reason.</Follows>
      </Form>
    </div>
  );
}
