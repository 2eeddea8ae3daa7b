// An amount of money, from whole cents.
import type { ReactNode } from 'react';
import { formatUsd } from '@backsight/domain/shared/money';

export const Money = ({ cents }: { cents: number }): ReactNode => <span className="numbers">{formatUsd(cents)}</span>;
