// What a move to another start makes of the fee, beside a charge for moving late; the fee may be kept as agreed with a reason.
import type { ReactNode } from 'react';
import { Checkbox, TextInput } from '@mantine/core';
import type { MoveChange } from '@backsight/contract/schedule';
import { FeeDifference } from './FeeDifference.tsx';
import { Parts } from './Parts.tsx';

type Props = {
  change: MoveChange;
  /** Charged for moving late besides. */
  lateCents: number;
  /** Why the fee is kept as agreed; null when it follows the time. */
  kept: string | null;
  onKeep: (why: string | null) => void;
};

export function MoveFee({ change: { beforeCents, afterCents, fee: lines, signed }, lateCents, kept, onKeep }: Props): ReactNode {
  const differs = beforeCents !== afterCents;
  const fee = kept === null ? afterCents : beforeCents;
  if (!differs && lateCents === 0) return <p role="status">The fee stays as it is at this time.</p>;
  return (
    <>
      {differs ? (
        <FeeDifference beforeCents={beforeCents} afterCents={afterCents} lines={lines}>
          {signed && kept === null ? 'The agreement was signed for the fee before: a new one takes its place and is sent to sign.' : null}
        </FeeDifference>
      ) : null}
      {lateCents > 0 ? (
        <Parts
          label="Fee after the move"
          parts={[
            { name: differs && kept === null ? 'Fee at the new time' : 'Fee as agreed', cents: fee },
            { name: 'Charge for moving late', cents: lateCents },
            { name: 'Together', cents: fee + lateCents, sum: true },
          ]}
        />
      ) : null}
      {differs ? (
        <Checkbox
          my="sm"
          label="Keep the fee as it was agreed"
          checked={kept !== null}
          onChange={(event) => onKeep(event.currentTarget.checked ? '' : null)}
        />
      ) : null}
      {differs && kept !== null ? (
        <TextInput
          mb="sm"
          label="Why the fee is kept"
          value={kept}
          onChange={(event) => onKeep(event.currentTarget.value)}
          maxLength={500}
          required
        />
      ) : null}
    </>
  );
}
