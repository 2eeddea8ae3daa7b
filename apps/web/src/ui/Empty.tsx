// Says that a list is empty, why, and what one can do about it.
import type { ReactNode } from 'react';
import classes from './note.module.css';

export function Empty({ children, action }: { children: ReactNode; action?: ReactNode }): ReactNode {
  return (
    <div className={classes.empty}>
      <p>{children}</p>
      {action}
    </div>
  );
}
