// Notes a check of a piece with its day; what did not pass is out of service at once.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import { CHECK_KINDS, type CheckKind, type KitItem } from '@backsight/contract/people/kit';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { noteCheck } from '../../api/personFile.ts';
import { Form } from '../../ui/Form.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = { checkKind: 'Check', onDay: 'Done on', failed: 'It did not pass: take it out of service', note: 'Note' };

export function NoteCheck({ item, done }: { item: KitItem; done: () => void }): ReactNode {
  const { zone } = useMe();
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const note = useSend(noteCheck, { refresh: ['kit'], said: 'The check is noted.', then: done });
  const first = { checkKind: item.checks[0]!.checkKind as string, onDay: todayIn(zone), failed: false, note: '' };
  const fields = useFields(first, LABELS, note.error, 'check', item.id);
  const { checkKind, failed, ...rest } = fields.values;
  const send = () => note.mutate({ ...rest, checkKind: checkKind as CheckKind, passed: !failed, ...ids, itemId: item.id });
  return (
    <Form
      error={note.error}
      labels={LABELS}
      scope="check"
      draft={fields.draft}
      submit="Note this check"
      busy={note.isPending}
      onSubmit={send}
      besides={
        <Button variant="default" onClick={done}>
          Leave without saving
        </Button>
      }
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <NativeSelect
          {...fields.text('checkKind')}
          data={item.checks.map((one) => ({ value: one.checkKind, label: CHECK_KINDS[one.checkKind] }))}
        />
        <TextInput {...fields.text('onDay')} type="date" required />
      </SimpleGrid>
      <TextInput {...fields.text('note')} mt="sm" />
      <Checkbox {...fields.check('failed')} mt="sm" />
    </Form>
  );
}
