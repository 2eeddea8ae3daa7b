// What an act makes of the fee: the sum before and after, and every line that differs with its reason.
import type { ReactNode } from 'react';
import { Money } from './Money.tsx';

type Line = { rule: string; label: string; reason: string; beforeCents: number | null; afterCents: number | null };
type Props = { beforeCents: number; afterCents: number; lines: readonly Line[]; children?: ReactNode };

const amount = (cents: number | null): ReactNode => (cents === null ? 'none' : <Money cents={cents} />);

export function FeeDifference({ beforeCents, afterCents, lines, children }: Props): ReactNode {
  return (
    <div role="status">
      <p>
        <strong>
          Fee: <Money cents={beforeCents} /> before, <Money cents={afterCents} /> after.
        </strong>{' '}
        {children}
      </p>
      {lines.length === 0 ? (
        <p>No fee line changes.</p>
      ) : (
        <ul>
          {lines.map((line) => (
            <li key={line.rule}>
              {line.label}: {amount(line.beforeCents)} before, {amount(line.afterCents)} after ({line.reason})
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
