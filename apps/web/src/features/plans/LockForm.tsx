// Keeps plans from changing a visit at all, with the reason; or lets them again.
import type { ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import type { KeptVisit } from '@backsight/contract/plans/kept';
import { lockVisit } from '../../api/plans.ts';
import { Form } from '../../ui/Form.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';

const LABELS = { because: 'Why plans leave it alone' };

export function LockForm({ visit: { id, version, lock } }: { visit: KeptVisit }): ReactNode {
  const save = useSend(lockVisit, { refresh: ['kept', id], said: 'Saved.' });
  const fields = useFields({ because: '' }, LABELS, save.error);
  if (lock)
    return (
      <>
        <p>
          {lock.because} ({lock.by}, <When at={lock.at} />)
        </p>
        <ProblemNote of={save.error} />
        <Button variant="default" loading={save.isPending} onClick={() => save.mutate({ id, version, because: null })}>
          Let plans change it
        </Button>
      </>
    );
  return (
    <Form
      error={save.error}
      labels={LABELS}
      submit="Leave this visit as it is"
      busy={save.isPending}
      onSubmit={() => save.mutate({ id, version, because: fields.values.because })}
    >
      <TextInput {...fields.text('because')} required />
    </Form>
  );
}
