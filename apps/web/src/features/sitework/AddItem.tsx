// Adds a thing found on site, which brings its steps with it.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { MemberRecord } from '@backsight/contract/sitework';
import { ITEM_KINDS, type ItemKind } from '@backsight/domain/shared/facts';
import { newId } from '../../api/ids.ts';
import { addItem } from '../../api/sitework.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import classes from './sitework.module.css';

const KINDS = (Object.keys(ITEM_KINDS) as ItemKind[]).map((value) => ({ value, label: ITEM_KINDS[value] }));

export function AddItem({ record }: { record: MemberRecord }): ReactNode {
  const queries = useQueryClient();
  const [kind, setKind] = useState<ItemKind>('ground_fault_device');
  const [label, setLabel] = useState('');
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const add = useMutation({
    mutationFn: addItem,
    onSuccess: async ({ steps }) => {
      saved(`${label}: ${steps} ${steps === 1 ? 'step' : 'steps'} added.`);
      setLabel('');
      setIds({ id: newId(), key: newId() });
      await queries.invalidateQueries({ queryKey: ['record', record.id] });
    },
  });
  return (
    <details className={classes.more}>
      <summary>Add a thing found here</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          add.mutate({ recordId: record.id, kind, label: label.trim(), ...ids });
        }}
      >
        <ProblemNote of={add.error} />
        <NativeSelect
          label="Kind"
          size="lg"
          data={KINDS}
          value={kind}
          onChange={(event) => setKind(event.currentTarget.value as ItemKind)}
        />
        <TextInput
          label="Name"
          description="So that both of you know which: upstairs bath, garage"
          size="lg"
          mt="sm"
          required
          maxLength={60}
          value={label}
          onChange={(event) => setLabel(event.currentTarget.value)}
        />
        <Button type="submit" size="lg" mt="sm" loading={add.isPending} disabled={label.trim() === ''}>
          Add it
        </Button>
      </form>
    </details>
  );
}
