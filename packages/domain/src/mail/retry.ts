// When a mail that was not accepted is tried again, and when to give up.

/** Minutes to wait after the first, second ... failed try; the last one repeats. */
const WAITS = [1, 5, 25, 120] as const;
export const MOST_TRIES = 8;

/** The instant of the next try after `failures` failed ones, or null to give up. */
export function nextTry(failures: number, now: Date): Date | null {
  if (failures >= MOST_TRIES) return null;
  const minutes = WAITS[Math.min(failures, WAITS.length) - 1] ?? WAITS[0];
  return new Date(now.getTime() + minutes * 60_000);
}

/** Takes the secret out of private links: what was sent needs no copy of a key. */
export const withoutKeys = (body: string): string => body.replace(/(\/client\/)[\w-]{20,}/g, '$1...');
