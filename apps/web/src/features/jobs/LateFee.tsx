// What a late move or cancelling costs by the rule, and waiving it with the reason.
import type { ReactNode } from 'react';
import { Checkbox, TextInput } from '@mantine/core';
import type { JobDesk } from '@backsight/contract/jobs/desk';
import { Money } from '../../ui/Money.tsx';
import { ChargeParts } from '../../ui/Parts.tsx';

type Props = {
  late: NonNullable<JobDesk['lateCancel']>;
  what: 'moved' | 'cancelled';
  /** The reason of the waiver; null when it is charged. */
  waiver: string | null;
  onChange: (waiver: string | null) => void;
};

export function LateFee({ late, what, waiver, onChange }: Props): ReactNode {
  return (
    <>
      <p>
        By the rule for what is {what} {late.because}, <Money cents={late.cents} /> is charged{what === 'moved' ? ' besides the fee' : ''}.
      </p>
      {what === 'cancelled' && waiver === null ? <ChargeParts charge={late} because="By the rule" /> : null}
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
