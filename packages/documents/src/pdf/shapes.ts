// What the doors to the writer of papers and to pages of other files hand over; apart, so that neither door brings what lies behind it.

export type PageSize = { width: number; height: number };
/** `why` in words that stand after "the file". */
export type Looked = { ok: true; pages: PageSize[] } | { ok: false; why: string };
/** Page `page` of ours, counted from 1, shows page `at` of `from`, counted from 0. */
export type TakenPage = { page: number; from: Uint8Array; at: number };

/** `pages`: how many there are; `marks`: on which the marked ones begin, counted from 1; `taken`: places left for pages of other files, see `withTakenPages`. */
export type Written = { bytes: Uint8Array; pages: number; marks: ReadonlyMap<string, number>; taken: readonly TakenPage[] };
