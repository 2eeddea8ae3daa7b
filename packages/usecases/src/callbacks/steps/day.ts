// The day of an instant where an office is.
import { DateTime } from 'luxon';

export const dayAt = (at: Date, zone: string): string => DateTime.fromJSDate(at, { zone }).toFormat('yyyy-MM-dd');
