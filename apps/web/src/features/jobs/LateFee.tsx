// What a late move or cancelling costs by the rule, and waiving it with the reason.
import type { ReactNode } from 'react';
import type { JobDesk } from '@backsight/contract/jobs/desk';
import { Money } from '../../ui/Money.tsx';
import { ChargeParts } from '../../ui/Parts.tsx';
import { WaiveLate } from '../../ui/WaiveLate.tsx';

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
      <WaiveLate waiver={waiver} onChange={onChange} />
    </>
  );
}
