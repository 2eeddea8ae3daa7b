// A partner check in which the answers differ: looked at again together, and settled on site with a reason.
import type { ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import type { SiteAct } from '@backsight/domain/sitework/act';
import { placeOf } from '@backsight/domain/sitework/value';
import { useDraft } from '../../api/phone/drafts.ts';

type Props = { recordId: string; place: { stepKey: string; itemId: string | null }; onSettle: (act: SiteAct, note: string) => void };

const NO_REASON = { why: '' };

export function Settle({ recordId, place, onSettle }: Props): ReactNode {
  const [{ why }, change, end] = useDraft(recordId, `settle ${placeOf(place)}`, NO_REASON);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (why.trim() === '') return;
        onSettle({ do: 'settled', stepKey: place.stepKey, item: place.itemId }, why);
        end();
      }}
    >
      <TextInput
        label="Settled on site: what stands, and why"
        description="Or one of you corrects the own answer."
        size="lg"
        mt="sm"
        value={why}
        onChange={(event) => change({ why: event.currentTarget.value })}
      />
      <Button type="submit" variant="default" size="lg" mt="sm" disabled={why.trim() === ''}>
        Record what stands
      </Button>
    </form>
  );
}
