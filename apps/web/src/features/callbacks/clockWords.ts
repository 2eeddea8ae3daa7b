// Words of the screens about clocks.
import { UNITS } from '@backsight/contract/callbacks/clocks';

/** '3 h 20 min of office hours'. */
export function officeTime(minutes: number): string {
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  const parts = [...(hours > 0 ? [`${hours} h`] : []), ...(rest > 0 || hours === 0 ? [`${rest} min`] : [])];
  return `${parts.join(' ')} of office hours`;
}

/** '1 business day', '15 business days'. */
export const termText = ({ amount, unit }: { amount: number; unit: keyof typeof UNITS }): string =>
  `${amount} ${amount === 1 ? UNITS[unit].replace('days', 'day').replace('minutes', 'minute') : UNITS[unit]}`;
