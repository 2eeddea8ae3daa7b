// The door to the writer of papers. It is loaded with the first paper: a service that writes none has its memory for something else.
import type { PdfPaper } from './content.ts';
import type { Written } from './shapes.ts';

export type { Written } from './shapes.ts';

/** The file with the pages on which its marked parts begin. @throws Error where a picture is neither PNG nor JPEG, or two attached files have one name */
export const written = async (paper: PdfPaper): Promise<Written> => (await import('./writer.ts')).write(paper);

/** The bytes of the file. @throws Error where a picture is neither PNG nor JPEG */
export const pdfOf = async (paper: PdfPaper): Promise<Uint8Array> => (await written(paper)).bytes;
