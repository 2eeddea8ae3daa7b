// An instant as a device gives it: its clock may be some minutes fast.
const FAST = 10 * 60_000;

/** What lies up to ten minutes ahead happened now. */
export const deviceTime = (given: string, now: Date): Date => {
  const at = new Date(given);
  return at > now && at.getTime() - now.getTime() <= FAST ? now : at;
};
