// A table of the page of a step, to take away.
import type { ReactNode } from 'react';
import type { STEP_TABLES } from '@backsight/contract/liability/steps';
import { stepTableAddress } from '../../api/liabilitySteps.ts';

type Props = { stepKey: string; of: (typeof STEP_TABLES)[number] };
const NAMES = { months: 'months', revisions: 'revisions', chart: 'the points of the chart', callbacks: 'callbacks' } as const;

export const TableLink = ({ stepKey, of }: Props): ReactNode => (
  <a href={stepTableAddress(stepKey, of)} download aria-label={`As a table (CSV): ${NAMES[of]}`}>
    As a table (CSV)
  </a>
);
