// A table of the page of a step, to take away.
import type { ReactNode } from 'react';
import { stepTableAddress, type StepTable } from '../../api/liabilitySteps.ts';
import { TableFiles } from './TableFiles.tsx';

type Props = { stepKey: string; of: StepTable };
const NAMES = { months: 'months', revisions: 'revisions', chart: 'the points of the chart', callbacks: 'callbacks' } as const;

export const TableLink = ({ stepKey, of }: Props): ReactNode => <TableFiles csv={stepTableAddress(stepKey, of)} of={NAMES[of]} />;
