// A discount at the price, given while the caller is speaking.
import type { ReactNode } from 'react';
import { DiscountInputs, NO_DISCOUNT } from '../../ui/DiscountInputs.tsx';
import type { Draft } from './draft.ts';
import classes from './booking.module.css';

type Props = {
  draft: Draft;
  change: (part: Partial<Draft>) => void;
  /** Why it was left out of the price; null when it was not. */
  refused: string | null;
};

export function Discount({ draft, change, refused }: Props): ReactNode {
  const given = draft.discount.amount !== '';
  return (
    <details open={given || undefined}>
      <summary>Give a discount</summary>
      <DiscountInputs value={draft.discount} onChange={(discount) => change({ discount })} problem={refused} />
      {given ? (
        <p className={classes.soft}>
          <button type="button" className={classes.plain} onClick={() => change({ discount: NO_DISCOUNT })}>
            No discount
          </button>
        </p>
      ) : null}
    </details>
  );
}
