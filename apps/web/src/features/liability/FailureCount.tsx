// Failures of a step, with its near-misses apart: they are no failures.
import type { ReactNode } from 'react';

export const FailureCount = ({ of: { failures, nearMisses } }: { of: { failures: number; nearMisses: number } }): ReactNode => (
  <span>
    {failures}
    {nearMisses > 0 ? (
      <>
        <br />
        <small>{`and ${nearMisses} ${nearMisses === 1 ? 'near-miss' : 'near-misses'}`}</small>
      </>
    ) : null}
  </span>
);
