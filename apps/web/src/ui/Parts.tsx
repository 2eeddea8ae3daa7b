// An amount shown as its parts, the result last: what a charge or another fee is made of.
import type { ReactNode } from 'react';
import { Money } from './Money.tsx';
import classes from './Parts.module.css';

export type Part = { name: ReactNode; cents: number; sum?: boolean };

export function Parts({ label, parts }: { label: string; parts: readonly Part[] }): ReactNode {
  return (
    <ul className={classes.parts} aria-label={label}>
      {parts.map(({ name, cents, sum }, at) => (
        <li key={at} className={sum ? classes.sum : undefined}>
          <span>{name}</span>
          <span className="numbers">
            <Money cents={cents} />
          </span>
        </li>
      ))}
    </ul>
  );
}

/** A part of the fee that is charged instead of all of it; `paidCents` left out = what was paid is not shown. */
export type PartCharge = { percent: number; feeCents: number; cents: number; paidCents?: number };

/** The fee, what of it is charged, what comes off, and what is then still to pay or to be given back. */
export function ChargeParts({ charge, because }: { charge: PartCharge; because: string }): ReactNode {
  const { feeCents, cents, percent, paidCents } = charge;
  const rule = percent > 0 || cents === 0 ? `${because}, ${percent}% is charged` : `${because}, this is charged`;
  const paid: Part[] =
    paidCents === undefined
      ? []
      : [
          { name: 'Paid so far', cents: -paidCents },
          paidCents > cents
            ? { name: 'To be given back', cents: paidCents - cents, sum: true }
            : { name: 'Still to pay', cents: cents - paidCents, sum: true },
        ];
  return (
    <Parts
      label="What is charged"
      parts={[
        { name: 'Fee as agreed', cents: feeCents },
        { name: 'Comes off', cents: cents - feeCents },
        { name: rule, cents, sum: true },
        ...paid,
      ]}
    />
  );
}
