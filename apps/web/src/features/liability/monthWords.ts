// Months as they are read.
const MONTH = new Intl.DateTimeFormat('en-US', { month: 'short', year: 'numeric', timeZone: 'UTC' });
/** 'Oct 2026' of '2026-10'. */
export const monthText = (month: string): string => MONTH.format(new Date(`${month}-15T12:00:00Z`));
/** '1 job', '2 jobs'. */
export const counted = (n: number, one: string, more = `${one}s`): string => `${n.toLocaleString('en-US')} ${n === 1 ? one : more}`;

const DAY = new Intl.DateTimeFormat('en-US', { dateStyle: 'medium', timeZone: 'UTC' });
/** 'Oct 5, 2026' of '2026-10-05'. */
export const shortDay = (day: string): string => DAY.format(new Date(`${day}T12:00:00Z`));
