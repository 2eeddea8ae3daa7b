// Reads single cells of a spreadsheet as people fill them in; says in one plain sentence what it cannot read.
import { shortState, STATE_CHOICES } from '../../shared/stateOfZip.ts';

/** The order of the parts of a day; ISO days (2024-03-09) are read whatever the order. */
export type DayOrder = 'iso' | 'mdy' | 'dmy';
export type MoneyUnit = 'dollars' | 'cents';
/** What a cell says, and what is to be looked at although it was read; or why it cannot be read. */
export type Read<T> = { ok: true; value: T; look?: string } | { ok: false; says: string };

const value = <T>(read: T, look?: string): Read<T> => ({ ok: true, value: read, ...(look === undefined ? {} : { look }) });
const no = (says: string): Read<never> => ({ ok: false, says });

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const two = (n: number): string => String(n).padStart(2, '0');

/** An ISO day of its parts, if there is such a day. A year of two digits is one of this century. */
function dayOf(year: number, month: number, day: number): string | null {
  const full = year < 100 ? 2000 + year : year;
  const at = new Date(Date.UTC(full, month - 1, day));
  return full >= 1900 && full <= 2200 && at.getUTCMonth() === month - 1 && at.getUTCDate() === day
    ? `${full}-${two(month)}-${two(day)}`
    : null;
}

/** The three parts of a day in the order year, month, day; null when there are none. */
function partsOf(text: string, order: DayOrder): [number, number, number] | null {
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(text);
  if (iso) return [Number(iso[1]), Number(iso[2]), Number(iso[3])];
  const named = /^(\d{1,2})[\s-]+([a-z]{3})[a-z]*\.?,?[\s-]+(\d{2,4})$/i.exec(text);
  if (named) return [Number(named[3]), MONTHS.indexOf(named[2]!.toLowerCase()) + 1, Number(named[1])];
  const first = /^([a-z]{3})[a-z]*\.?\s+(\d{1,2}),?\s+(\d{2,4})$/i.exec(text);
  if (first) return [Number(first[3]), MONTHS.indexOf(first[1]!.toLowerCase()) + 1, Number(first[2])];
  const plain = /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{2}|\d{4})$/.exec(text);
  if (!plain || order === 'iso') return null;
  const [a, b, year] = [Number(plain[1]), Number(plain[2]), Number(plain[3])];
  return order === 'mdy' ? [year, a, b] : [year, b, a];
}

const SAID: Record<DayOrder, string> = {
  iso: 'year-month-day (2024-03-09)',
  mdy: 'month/day/year (3/9/2024)',
  dmy: 'day/month/year (9/3/2024)',
};

/** An ISO day. A time of day behind it is left out. */
export function readDay(cell: string, order: DayOrder): Read<string> {
  const text = cell
    .trim()
    .replace(/^(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+/i, '')
    .replace(/(?<![T\s])[T\s]+\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?\s*(?:[ap]\.?m\.?)?\s*(?:Z|[+-]\d{2}:?\d{2})?$/i, '');
  const parts = partsOf(text, order);
  if (!parts) {
    if (/^\d{5}(?:\.\d+)?$/.test(text))
      return no(
        `"${text}" is a day as a spreadsheet counts it inside. Give the column the format of a date there and save it as CSV once more.`,
      );
    return no(`"${short(cell)}" is no day. Days are read as ${SAID[order]}; choose another order above if the file has one.`);
  }
  const day = dayOf(...parts);
  return day === null ? no(`There is no day "${short(cell)}" when it is read as ${SAID[order]}.`) : value(day);
}

/** Minutes since midnight. */
export function readTime(cell: string): Read<number> {
  const found = /^(\d{1,2})(?::(\d{2}))?(?::\d{2})?\s*([ap])?\.?(?:m\.?)?$/i.exec(cell.trim());
  const [hour, minute, half] = [Number(found?.[1]), Number(found?.[2] ?? 0), found?.[3]?.toLowerCase()];
  if (!found || minute > 59 || hour > (half ? 12 : 23) || (half && hour === 0))
    return no(`"${short(cell)}" is no time of day. Write it like 9:00 AM or 13:30.`);
  return value((half ? (hour % 12) + (half === 'p' ? 12 : 0) : hour) * 60 + minute);
}

const MOST_DOLLARS = 100_000;
/** What an inspection usually costs lies between these, in dollars: common practice. */
const USUAL = { least: 25, most: 5_000 };

/** Whole cents, not below 0. */
export function readMoney(cell: string, unit: MoneyUnit): Read<number> {
  const text = cell.trim().replace(/\s|USD|\$/gi, '');
  if (unit === 'cents') {
    if (!/^\d{1,9}$/.test(text)) return no(`"${short(cell)}" is no amount in cents. Choose dollars above if the file has dollars.`);
    return usual(Number(text));
  }
  if (!/^(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d{1,2})?$/.test(text))
    return no(
      /^\d+,\d{1,2}$/.test(text)
        ? `"${short(cell)}" has a comma before the cents. Write it with a point, like 450.00.`
        : `"${short(cell)}" is no amount. Write it like 450 or 1,250.00.`,
    );
  const cents = Math.round(Number(text.replaceAll(',', '')) * 100);
  return cents > MOST_DOLLARS * 100
    ? no(`"${short(cell)}" is more than $${MOST_DOLLARS.toLocaleString('en-US')}. Does the file have cents?`)
    : usual(cents);
}

const usual = (cents: number): Read<number> =>
  cents !== 0 && (cents < USUAL.least * 100 || cents > USUAL.most * 100)
    ? value(cents, `This is read as $${(cents / 100).toFixed(2)}. Look whether the file has dollars or cents.`)
    : value(cents);

/** As it is typed, without blanks around it. */
export function readEmail(cell: string): Read<string> {
  const text = cell.trim().replace(/^mailto:/i, '');
  // As the forms of the service read one: letters, digits and _ ' + - . before the @.
  const right =
    /^(?!\.)(?!.*\.\.)([A-Za-z0-9_'+\-.]*)[A-Za-z0-9_+-]@([A-Za-z0-9][A-Za-z0-9-]*\.)+[A-Za-z]{2,}$/.test(text) && text.length <= 200;
  return right ? value(text) : no(`"${short(cell)}" is no e-mail address.`);
}

export function readPhone(cell: string): Read<string> {
  const text = cell.trim();
  const digits = text.replace(/\D/g, '').length;
  if (/e\+?\d+$/i.test(text))
    return no(`"${short(cell)}" is a number that the spreadsheet shortened. Give the column the format of text there.`);
  return digits >= 7 && text.length <= 40 ? value(text) : no(`"${short(cell)}" is no whole phone number. Write it like 920-555-0100.`);
}

/** Five digits. */
export function readZip(cell: string): Read<string> {
  const text = cell.trim();
  const whole = /^(\d{5})(?:-?\d{4})?$/.exec(text);
  if (whole) return value(whole[1]!);
  if (/^\d{3,4}$/.test(text))
    return value(text.padStart(5, '0'), `Read as ${text.padStart(5, '0')}: spreadsheets leave out zeros before a number.`);
  return no(`"${short(cell)}" is no ZIP code. It has five digits.`);
}

/** ISO 3166-2, like US-WI. */
export function readState(cell: string): Read<string> {
  const text = cell.trim().toLowerCase().replace(/\.$/, '').replace(/^us-/, '');
  const found = STATE_CHOICES.find((one) => shortState(one.value).toLowerCase() === text || one.label.toLowerCase() === text);
  return found ? value(found.value) : no(`"${short(cell)}" is no state. Write it like WI or Wisconsin.`);
}

/** A whole number between two bounds. */
export function readCount(cell: string, { least, most, what }: { least: number; most: number; what: string }): Read<number> {
  const text = cell.trim().replaceAll(',', '');
  const number = Number(text);
  return /^\d+(?:\.0+)?$/.test(text) && number >= least && number <= most
    ? value(number)
    : no(`"${short(cell)}" is no ${what}. It lies between ${least} and ${most}.`);
}

/** Yes or no. */
export function readYesNo(cell: string): Read<boolean> {
  const text = cell.trim().toLowerCase();
  if (['yes', 'y', 'true', '1', 'x'].includes(text)) return value(true);
  return ['no', 'n', 'false', '0', ''].includes(text) ? value(false) : no(`"${short(cell)}" is neither yes nor no.`);
}

/** One line of text, blanks and ends of lines drawn together. */
export function readText(cell: string, most: number): Read<string> {
  // oxlint-disable-next-line no-control-regex -- what no text has is what is looked for
  const text = cell
    .replace(/\s+/g, ' ')
    .replace(/[\u0000-\u001f\u007f]/g, '')
    .trim();
  return text.length <= most ? value(text) : no(`This is longer than ${most} characters: "${short(cell)}"`);
}

/** Several that stand in one cell, parted by a semicolon, a plus, a slash, an end of line or the word "and". */
export const readSeveral = (cell: string): string[] =>
  cell
    .split(/[;+/&|\r\n]+|(?<!\s)\s+and\s+/i)
    .map((one) => one.replace(/\s+/g, ' ').trim())
    .filter(Boolean);

/** The beginning of a cell, for a sentence about it. */
export const short = (cell: string): string => {
  const line = cell.replace(/\s+/g, ' ').trim();
  return line.length > 60 ? `${line.slice(0, 57)}...` : line;
};
