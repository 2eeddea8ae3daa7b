// Takes a callback in, at the desk or from a mail that the office logs.
import type { Act } from '../run.ts';
import { takeIn, type Received, type TakeIn } from './steps/takeIn.ts';

export type ReceiveInput = Omit<TakeIn, 'way'>;
export const receiveCallback: Act<ReceiveInput, Received> = {
  operation: 'callbacks.receive',
  run: (work, input) => takeIn(work, { ...input, way: input.mail ? 'mail' : 'desk' }),
};
