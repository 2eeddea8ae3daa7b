// Months as they are read.
const MONTH = new Intl.DateTimeFormat('en-US', { month: 'short', year: 'numeric', timeZone: 'UTC' });
/** 'Oct 2026' of '2026-10'. */
export const monthText = (month: string): string => MONTH.format(new Date(`${month}-15T12:00:00Z`));
/** '1 job', '2 jobs'. */
export const counted = (n: number, one: string, more = `${one}s`): string => `${n.toLocaleString('en-US')} ${n === 1 ? one : more}`;
