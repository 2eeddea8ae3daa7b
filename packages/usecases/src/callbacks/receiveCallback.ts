// Takes a callback in, at the desk.
import type { Act } from '../run.ts';
import { takeIn, type Received, type ReceiveInput } from './steps/takeIn.ts';

export const receiveCallback: Act<ReceiveInput, Received> = { operation: 'callbacks.receive', run: takeIn };
export type { ReceiveInput };
