// Shape of one line of the refusal catalogue. Each area keeps its own list in <area>/refusals.ts.

/**
 * `blame` tells what kind of no it is, so that the HTTP floor can choose a status without the domain knowing HTTP:
 * input = the request is wrong in itself; state = right in itself but not now; conflict = somebody else was first;
 * permission = this person may not; missing = no such thing.
 */
export type RefusalLine = {
  blame: 'input' | 'state' | 'conflict' | 'permission' | 'missing';
  /** One plain sentence; {name} is replaced from `about`. */
  sentence: string;
};

/** Keeps the codes of a list as literal types. */
export const refusalList = <T extends Record<string, RefusalLine>>(list: T): T => list;
