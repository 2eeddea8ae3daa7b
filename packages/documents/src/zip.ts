// Several texts in one file.
import { strToU8, zipSync } from 'fflate';

/** A ZIP file of texts in UTF-8, in the order given; `at` becomes the date of each, so that equal input gives equal bytes. */
export const zipOf = (files: readonly (readonly [name: string, text: string])[], at: Date): Uint8Array =>
  zipSync(Object.fromEntries(files.map(([name, text]) => [name, strToU8(text)])), { mtime: at });
