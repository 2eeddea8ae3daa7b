// The hours of an office in words.
import type { BusinessCalendar, IsoWeekday, OpeningHours } from './calendar.ts';

const DAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

const clock = (minutes: number): string => {
  const [hour, minute] = [Math.floor(minutes / 60) % 24, minutes % 60];
  return `${hour % 12 || 12}:${String(minute).padStart(2, '0')} ${hour < 12 ? 'AM' : 'PM'}`;
};
const said = (hours: OpeningHours | null): string => (hours ? `${clock(hours.start)} to ${clock(hours.end)}` : '');

/** 'Monday to Friday 8:00 AM to 5:00 PM; Saturday 9:00 AM to 12:00 PM': days that follow each other with the same hours together, closed days left out. */
export function openingWords(hours: BusinessCalendar['hours']): string {
  const runs: { from: number; to: number; words: string }[] = [];
  DAYS.forEach((_, at) => {
    const words = said(hours[(at + 1) as IsoWeekday]);
    const last = runs.at(-1);
    if (last?.words === words) last.to = at;
    else runs.push({ from: at, to: at, words });
  });
  const open = runs.filter(({ words }) => words !== '');
  return open
    .map(({ from, to, words }) => `${DAYS[from]}${to === from ? '' : `${to === from + 1 ? ' and' : ' to'} ${DAYS[to]}`} ${words}`)
    .join('; ');
}
