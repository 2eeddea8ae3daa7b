// Whether anybody is at this window: what it asks by itself meanwhile keeps nobody signed in.
const A_WHILE = 3 * 60_000;
let last = Date.now();
const here = (): void => void (last = Date.now());
for (const kind of ['pointerdown', 'keydown', 'wheel', 'focus'] as const)
  globalThis.addEventListener?.(kind, here, { passive: true, capture: true });

/** The header that says so, or none. */
export const restHeader = (): Record<string, string> => (Date.now() - last > A_WHILE ? { 'x-at-rest': '1' } : {});
