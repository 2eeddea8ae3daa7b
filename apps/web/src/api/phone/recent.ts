// Where somebody was last on this device: jobs, callbacks and the like, never lists. It goes with everything else that was read when they sign out.
const PLACE = 'recent';
const AT_MOST = 8;
const OF_ONE_THING = /[0-9a-f]{8}-[0-9a-f-]{27}/;
const FAILED = ['Not here', 'This did not work', 'There is nothing at this address'];

export type Visited = { personId: string; path: string; title: string };

/** The newest first; nothing where the device keeps nothing. */
export function recentPlaces(personId: string): Visited[] {
  try {
    const kept = JSON.parse(localStorage.getItem(PLACE) ?? '[]') as Visited[];
    return kept.filter((one) => one.personId === personId);
  } catch {
    return [];
  }
}

/** The list with a place put first; a screen that shows no single thing, or only that it failed, leaves it as it is. */
export const withPlace = (before: readonly Visited[], now: Visited): Visited[] =>
  OF_ONE_THING.test(now.path) && !FAILED.includes(now.title)
    ? [now, ...before.filter(({ path }) => path !== now.path)].slice(0, AT_MOST)
    : [...before];

export function notePlace(now: Visited): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(withPlace(recentPlaces(now.personId), now)));
  } catch {
    // a device that keeps nothing still works
  }
}

export const forgetPlaces = (): void => {
  try {
    localStorage.removeItem(PLACE);
  } catch {
    // then nothing was kept either
  }
};
