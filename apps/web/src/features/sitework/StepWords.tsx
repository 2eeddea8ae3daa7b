// The words of a step: caution first, then what to do, why, and where it comes from.
import type { ReactNode } from 'react';
import type { SiteStep } from '@backsight/contract/sitework';
import classes from './sitework.module.css';

export const Caution = ({ step }: { step: SiteStep }): ReactNode =>
  step.caution === null ? null : (
    <div className={classes.caution}>
      <strong>Before you begin</strong>
      {step.caution}
    </div>
  );

export function More({ step }: { step: SiteStep }): ReactNode {
  return (
    <details className={classes.more}>
      <summary>Why, and where it comes from</summary>
      <p>{step.why}</p>
      <p className={classes.soft}>
        {step.basis.kind === 'duty' ? 'A duty of the published standard.' : "The firm's own extra."} In this record: {step.because}.
        Revision {step.revisionNumber}.
      </p>
      {step.references.map((r) => (
        <p key={r.title + r.section} className={classes.soft}>
          {r.title}, {r.section} ({r.status})
        </p>
      ))}
    </details>
  );
}
