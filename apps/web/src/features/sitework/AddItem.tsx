// Adds a thing found on site, which brings its steps with it; without signal too, where the phone was handed the steps.
import type { ReactNode } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import type { MemberRecord } from '@backsight/contract/sitework';
import { ITEM_KINDS, type ItemKind } from '@backsight/domain/shared/facts';
import { newId } from '../../api/ids.ts';
import { useDraft } from '../../api/phone/drafts.ts';
import { aheadQuery } from '../../api/sitework.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { stepsOf } from './openHere.ts';
import type { NewAct } from './useRecord.ts';

const KINDS = (Object.keys(ITEM_KINDS) as ItemKind[]).map((value) => ({ value, label: ITEM_KINDS[value] }));

type Found = { kind: ItemKind; label: string };
const FOUND: Found = { kind: 'ground_fault_device', label: '' };

export function AddItem({ record, onAct }: { record: MemberRecord; onAct: (act: NewAct) => Promise<void> }): ReactNode {
  const { data: ahead } = useQuery(aheadQuery);
  const [{ kind, label }, change] = useDraft(record.id, 'found here', FOUND);
  const name = label.trim();
  const taken = record.items.some((item) => item.kind === kind && item.label === name);
  const add = useMutation({
    mutationFn: async () => {
      const item = { id: newId(), kind, label: name };
      const steps = ahead ? (stepsOf(ahead, record, item) ?? []) : [];
      const act = { path: `/api/records/${record.id}/items`, body: { ...item, joins: true }, says: `Found here: ${name}` };
      await onAct({ ...act, adds: { items: [item], steps } });
      return steps.length;
    },
    onSuccess: (steps) => {
      saved(
        steps === 0
          ? `${name} is noted; its steps come with the next connection.`
          : `${name}: ${steps} ${steps === 1 ? 'step' : 'steps'} added.`,
      );
      change({ label: '' });
    },
  });
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (!taken) add.mutate();
      }}
    >
      <ProblemNote of={add.error} />
      <NativeSelect
        label="Kind"
        size="lg"
        data={KINDS}
        value={kind}
        onChange={(event) => change({ kind: event.currentTarget.value as ItemKind })}
      />
      <TextInput
        label="Name"
        description="So that both of you know which: upstairs bath, garage"
        size="lg"
        mt="sm"
        required
        maxLength={60}
        value={label}
        error={taken ? 'There is already a thing of this kind and name.' : undefined}
        onChange={(event) => change({ label: event.currentTarget.value })}
      />
      <Button type="submit" size="lg" mt="sm" loading={add.isPending} disabled={label.trim() === ''}>
        Add it
      </Button>
    </form>
  );
}
