// Shape of the history of cash in the database.
import { z } from 'zod';
import type { CashHistory } from './cash.ts';

const span = z.union([z.literal(30), z.literal(90)]);
const history = z.strictObject({
  left: z.array(z.strictObject({ age: z.int(), span, callbacks: z.int(), stood: z.int(), left: z.int() })),
  new: z.array(z.strictObject({ span, cents: z.array(z.int()) })),
});

/** @throws ZodError when the row holds anything else: that is a mistake of the program */
export const readCashHistory = (stored: unknown): CashHistory => history.parse(stored);
