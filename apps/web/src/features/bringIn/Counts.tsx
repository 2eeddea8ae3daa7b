// What a spreadsheet comes to, in numbers.
import type { ReactNode } from 'react';
import type { BringIn, BringInCounts } from '@backsight/contract/firm/bringIns';
import { countLines } from './words.ts';
import classes from './bringIn.module.css';

export function Counts({ of: { kind, state }, counts }: { of: BringIn; counts: BringInCounts }): ReactNode {
  return (
    <ul className={classes.counts} aria-label="What it comes to">
      {countLines(kind, counts, state !== 'checked').map(({ key, n, says }) => (
        <li key={key}>
          <strong className="numbers">{n.toLocaleString('en-US')}</strong> {says}
        </li>
      ))}
    </ul>
  );
}
