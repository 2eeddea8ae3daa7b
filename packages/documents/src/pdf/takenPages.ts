// The door to pages of PDFs that somebody else made; what reads them is loaded with the first one.
import type { Looked, TakenPage } from './shapes.ts';

export type { Looked, PageSize, TakenPage } from './shapes.ts';

/** The pages as a reader shows them, turned ones turned; points. */
export const lookAt = async (bytes: Uint8Array): Promise<Looked> => (await import('./otherPages.ts')).lookAtPages(bytes);

/** Puts the pages into the places that were left for them: the one picture of each page. Equal input gives equal bytes. */
export const withTakenPages = async (file: Uint8Array, taken: readonly TakenPage[]): Promise<Uint8Array> =>
  taken.length === 0 ? file : (await import('./otherPages.ts')).putPages(file, taken);
