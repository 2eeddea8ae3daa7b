// The check of local times is itself proven: each way to read the machine's zone is found, and its lawful twin is let through.
import { expect, it } from 'vitest';
import { checkLocalTime } from './checkLocalTime.ts';
import { parseAll } from './read.ts';

const PATH = 'packages/usecases/src/jobs/a.ts';
const run = (code: string, path = PATH): string[] => checkLocalTime(parseAll([{ path, text: `// Slots.\nconst a = ${code};\n` }]));

it.each([
  'at.getHours()',
  'at?.getDay()',
  'at.setHours(0, 0, 0, 0)',
  'at.getTimezoneOffset()',
  'at.toDateString()',
  "at.toLocaleTimeString('en-US')",
  "at.toLocaleDateString('en-US', { weekday: 'long' })",
  "at.toLocaleString('en-US', { dateStyle: 'full' })",
  'new Date(2027, 2, 14)',
  "new Date('2027-03-14T02:30')",
  'Date.parse(`${day}T00:00:00`)',
  "new Intl.DateTimeFormat('en-US', { month: 'short' })",
  'DateTime.local()',
  'DateTime.now().toISODate()',
  'DateTime.fromISO(day)',
  "DateTime.fromISO(day, { locale: 'en-US' })",
  'DateTime.fromJSDate(at)',
  "DateTime.fromFormat(text, 'yyyy')",
])('finds %s', (code) => expect(run(code)).toEqual([expect.stringContaining(`${PATH}:2 reads `)]));

it.each([
  'at.getUTCHours()',
  'at.getTime()',
  "count.toLocaleString('en-US')",
  "count.toLocaleString('en-US', { maximumFractionDigits: 1 })",
  "at.toLocaleString('en-US', { timeZone: zone, dateStyle: 'full' })",
  'new Date(ms)',
  'new Date(Date.UTC(2027, 2, 14))',
  'Date.parse(`${day}T00:00:00Z`)',
  "new Date('2027-03-14T02:30:00-06:00')",
  'Date.parse(day)',
  'new Intl.DateTimeFormat(language, { timeZone: zone })',
  'DateTime.now().setZone(zone)',
  'DateTime.utc()',
  'DateTime.fromISO(day, { zone })',
  "DateTime.fromFormat(text, 'yyyy', { zone: 'utc' })",
])('stays quiet about %s', (code) => expect(run(code)).toEqual([]));

it('stays quiet about tests', () => expect(run('at.getHours()', 'tests/http/a.test.ts')).toEqual([]));
