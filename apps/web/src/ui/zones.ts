// Zones of time beside each other, and what they are called.

const HALF_A_YEAR_MS = 183 * 86_400_000;

const part = (zone: string, timeZoneName: 'longGeneric' | 'longOffset', at: number): string | undefined =>
  new Intl.DateTimeFormat('en-US', { timeZone: zone, timeZoneName }).formatToParts(at).find(({ type }) => type === 'timeZoneName')?.value;

/** Whether clocks of two zones show different times, now or in the other half of the year. */
export const zonesDiffer = (a: string, b: string, now: number): boolean =>
  [now, now + HALF_A_YEAR_MS].some((at) => part(a, 'longOffset', at) !== part(b, 'longOffset', at));

/** 'Central Time'; the zone's own key where the language has no name for it. */
export const zoneName = (zone: string, now: number): string => part(zone, 'longGeneric', now) ?? zone;
