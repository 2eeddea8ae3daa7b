// How amounts, shares and methods of the development are said.
import type { Development, Measured } from '@backsight/contract/liability/development';
import { formatUsd } from '@backsight/domain/shared/money';

export const METHODS = {
  each: 'The one that fits each',
  chain_ladder: 'Chain ladder',
  bornhuetter_ferguson: 'Bornhuetter-Ferguson',
  cape_cod: 'Cape Cod',
} as const satisfies Record<Development['method'], string>;

export const COUNTED = {
  callbacks: 'Callbacks',
  incurred: 'Paid and set aside, less recovered',
  paid: 'Paid, less recovered',
} as const satisfies Record<Measured, string>;

const one = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: 1 });

/** To the cent, or to a tenth of a callback. */
export const amount = (of: Measured, value: number): string => (of === 'callbacks' ? one(value) : formatUsd(Math.round(value)));

/** In whole dollars, where there are many beside each other. */
export const short = (of: Measured, value: number): string =>
  of === 'callbacks' ? one(value) : `${value < 0 ? '-' : ''}$${Math.round(Math.abs(value) / 100).toLocaleString('en-US')}`;

export const percent = (share: number): string => `${(share * 100).toLocaleString('en-US', { maximumFractionDigits: 0 })} %`;
