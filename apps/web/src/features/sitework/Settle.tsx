// A partner check in which the answers differ: looked at again together, and settled on site with a reason.
import { useState, type ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import type { SiteAct } from '@backsight/domain/sitework/act';

type Props = { place: { stepKey: string; itemId: string | null }; onSettle: (act: SiteAct, note: string) => void };

export function Settle({ place, onSettle }: Props): ReactNode {
  const [why, setWhy] = useState('');
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (why.trim() !== '') onSettle({ do: 'settled', stepKey: place.stepKey, item: place.itemId }, why);
      }}
    >
      <TextInput
        label="Settled on site: what stands, and why"
        description="Or one of you corrects the own answer."
        size="lg"
        mt="sm"
        value={why}
        onChange={(event) => setWhy(event.currentTarget.value)}
      />
      <Button type="submit" variant="default" size="lg" mt="sm" disabled={why.trim() === ''}>
        Record what stands
      </Button>
    </form>
  );
}
