// Shows why something was refused or failed, in the service's words; nothing when there is no error.
import type { ReactNode } from 'react';
import { asProblem } from '../api/problemError.ts';
import classes from './note.module.css';

export function ProblemNote({ of, children }: { of: unknown; children?: ReactNode }): ReactNode {
  const problem = asProblem(of);
  if (!problem) return null;
  return (
    <div className={classes.problem} role="alert">
      <p>{problem.message}</p>
      {problem.problem.detail ? <p>{problem.problem.detail}</p> : null}
      {children}
    </div>
  );
}
