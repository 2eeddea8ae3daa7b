// A body nested thousands of times would end the stack of whatever walks it: it is refused before anything does.

/** More than any body of the contract has; a rule of when a step applies is the deepest. */
const DEEPEST = 60;

/** Whether lists and objects stand in each other deeper than any request needs; walked without a stack of calls. */
export function tooDeep(body: unknown): boolean {
  let level: unknown[] = [body];
  for (let depth = 0; level.length > 0; depth += 1) {
    const inner = level.filter((one) => typeof one === 'object' && one !== null);
    if (inner.length > 0 && depth >= DEEPEST) return true;
    level = inner.flatMap((one) => Object.values(one as object) as unknown[]);
  }
  return false;
}
