// Waiving a charge for what comes late, with the reason.
import type { ReactNode } from 'react';
import { Checkbox, TextInput } from '@mantine/core';

type Props = {
  /** The reason of the waiver; null when it is charged. */
  waiver: string | null;
  onChange: (waiver: string | null) => void;
};

export function WaiveLate({ waiver, onChange }: Props): ReactNode {
  return (
    <>
      <Checkbox
        mb="sm"
        label="Waive it"
        checked={waiver !== null}
        onChange={(event) => onChange(event.currentTarget.checked ? '' : null)}
      />
      {waiver !== null ? (
        <TextInput
          mb="sm"
          label="Why it is waived"
          value={waiver}
          onChange={(event) => onChange(event.currentTarget.value)}
          maxLength={500}
          required
        />
      ) : null}
    </>
  );
}
