// Minutes of the local wall clock as time inputs hold them, and hours of a week.

export const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const;

/** 480 -> '08:00'; 1440 -> '23:59', since an input of time has no 24:00. */
export const clockOf = (minute: number): string =>
  minute >= 1440 ? '23:59' : `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;

/** '08:00' -> 480; null for what is no time. */
export function minuteOf(clock: string): number | null {
  const match = /^(\d{2}):(\d{2})/.exec(clock);
  return match ? Number(match[1]) * 60 + Number(match[2]) : null;
}

/** From and until of each weekday as typed; both blank = none. */
export type TypedWeek = { from: string; until: string }[];

export const BUSINESS_WEEK: TypedWeek = WEEKDAYS.map((_, at) => (at < 5 ? { from: '08:00', until: '17:00' } : { from: '', until: '' }));

/** The typed span of a weekday; null = none; a missing half counts as midnight, which the service refuses in words. */
export const spanOf = ({ from, until }: TypedWeek[number]): [number, number] | null =>
  from === '' && until === '' ? null : [minuteOf(from) ?? 0, minuteOf(until) ?? 0];
