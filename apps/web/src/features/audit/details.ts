// What a line of the audit trail holds, in words: names for people, times and amounts as everywhere; ids and fingerprints stay as they were written.
import { formatUsd } from '@backsight/domain/shared/money';
import { dayText, instantText } from '../../ui/time.ts';

const ID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
const PRINT = /^[0-9a-f]{64}$/;
const INSTANT = /^\d{4}-\d\d-\d\dT/;
const DAY = /^\d{4}-\d\d-\d\d$/;

export const words = (name: string): string =>
  name
    .replace(/([A-Z])/g, ' $1')
    .replace(/[._-]/g, ' ')
    .toLowerCase();

type By = { names: ReadonlyMap<string, string>; zone: string };

/** Undefined: nothing that a reader would miss, or only a machine could read. */
function said(value: unknown, { names, zone }: By): string | undefined {
  if (value === null || value === false || value === '') return undefined;
  if (value === true) return 'yes';
  if (typeof value === 'number') return value.toLocaleString('en-US');
  if (Array.isArray(value)) return value.flatMap((one) => said(one, { names, zone }) ?? []).join(', ') || undefined;
  if (typeof value !== 'string') return undefined;
  if (ID.test(value)) return names.get(value);
  if (PRINT.test(value)) return undefined;
  if (INSTANT.test(value)) return instantText(value, zone);
  return DAY.test(value) ? dayText(value) : value.replaceAll('_', ' ');
}

const NUMBERED = /number|invoice$/i;

/** The details of one act as a sentence of its parts. */
export const sayDetails = (details: Record<string, unknown>, by: By): string =>
  Object.entries(details)
    .flatMap(([name, value]) => {
      if (typeof value === 'number' && name.endsWith('Cents')) return `${words(name.slice(0, -5))} ${formatUsd(value)}`;
      if (typeof value === 'number' && name === 'cents') return formatUsd(value);
      const text = typeof value === 'number' && NUMBERED.test(name) ? String(value) : said(value, by);
      return text === undefined ? [] : `${words(name.replace(/Id$/, ''))} ${text}`;
    })
    .join('; ');

/** All of it as it was written, one part a line. */
export const asWritten = (details: Record<string, unknown>): string[] =>
  Object.entries(details).map(([name, value]) => `${name}: ${JSON.stringify(value)}`);
