// Visits that find no place on their day, and why.
import type { ReactNode } from 'react';
import type { DayAnswer } from '@backsight/contract/plans';
import { TextLink } from '../../ui/links.tsx';
import classes from '../../ui/note.module.css';

export function LeftOut({ day: { leftOut } }: { day: DayAnswer }): ReactNode {
  if (leftOut.length === 0) return null;
  return (
    <div className={classes.problem} style={{ marginTop: 'var(--bs-space-5)' }}>
      <p>{leftOut.length === 1 ? 'One visit finds no place on this day:' : `${leftOut.length} visits find no place on this day:`}</p>
      <ul>
        {leftOut.map(({ visitId, jobId, label, reasons }) => (
          <li key={visitId}>
            <TextLink to="/jobs/$jobId" params={{ jobId }}>
              {label}
            </TextLink>
            . {reasons.join(' ')}
          </li>
        ))}
      </ul>
    </div>
  );
}
