// Shape of the clauses and limits of an agreement text in the database, and as they come from the editor.
import { z } from 'zod';
import { applicabilitySchema } from '../shared/stored.ts';
import { CLAUSE_CLIENTS, type Clause, type ClauseClient, type TextLimits } from './text.ts';

const noZero = /^[^\u0000]*$/;

const clauseSchema = z.strictObject({
  key: z.string().regex(/^[a-z][a-z0-9_-]{0,59}$/, 'A key is lower-case letters, digits, - and _.'),
  title: z
    .string()
    .trim()
    .max(160)
    .regex(/^[^\u0000-\u001f]*$/, 'Write this in one line.'),
  body: z.string().max(20_000).regex(noZero, 'There is a character in it that cannot be kept: type it anew.'),
  applies: applicabilitySchema,
  client: z.enum(Object.keys(CLAUSE_CLIENTS) as [ClauseClient, ...ClauseClient[]]),
});
export const clausesSchema = z.array(clauseSchema).max(60);

export const limitsSchema = z.strictObject({
  cap: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }),
    z.strictObject({ kind: z.literal('factor'), tenths: z.int().min(1).max(1000) }),
    z.strictObject({ kind: z.literal('amount'), cents: z.int().min(1).max(2_000_000_000) }),
  ]),
  claimMonths: z.int().min(1).max(600).nullable(),
});

/** Stored clauses and limits, checked. @throws ZodError when a row holds anything else: that is a mistake of the program */
export const readClauses = (stored: unknown): Clause[] => clausesSchema.parse(stored) as Clause[];
export const readLimits = (stored: unknown): TextLimits => limitsSchema.parse(stored);
