// What a backup says about itself: written last into it, and read before anything of it is used.
import { z } from 'zod';

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
const name = z.string().min(1).max(300);

export const manifestSchema = z.strictObject({
  backup: z.literal(1),
  madeAt: z.iso.datetime(),
  /** Version of the program that made it. */
  version: z.string().max(40),
  firm: z.string().max(300).nullable(),
  /** The changes of the database that its rows are made for, oldest first. */
  migrations: z.array(z.strictObject({ name, checksum: sha256 })),
  tables: z.array(z.strictObject({ name, columns: z.array(name).min(1), rows: z.int().min(0) })),
  /** Names of stored files that the rows speak of and that were not there any more. */
  filesMissing: z.array(sha256),
  entries: z.array(z.strictObject({ name, bytes: z.int().min(0), sha256 })),
});
export type Manifest = z.output<typeof manifestSchema>;
