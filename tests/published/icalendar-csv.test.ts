// Tag: time.
// Calendars and tables that leave the service, against the open standards that others read them by.
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { calendarText } from '@backsight/documents/calendar';
import { csvText } from '@backsight/documents/csv';
import { escaped, folded, spans, written } from './data/icalendarCsv.ts';

const AT = new Date('2026-03-01T12:00:00Z');
const one = (event: { summary?: string; location?: string; startsAt?: Date; endsAt?: Date }): string =>
  calendarText('Visits', [{ uid: 'a@test.example', startsAt: AT, endsAt: AT, summary: 'x', stampedAt: AT, ...event }]);

/** Takes the folds out (one white-space octet after each line end) and the escapes of one property. */
const valueOf = (text: string, property: string): string =>
  new RegExp(`^${property}:(.*)$`, 'm').exec(text.replace(/\r\n[ \t]/g, ''))![1]!.replace(/\r$/, '');
const plain = (value: string): string => value.replace(/\\(.)/g, (_, char: string) => (char === 'n' ? '\n' : char));

describe('iCalendar', () => {
  it.each(folded)('folds $name ($source; $status)', ({ text, octets }) => {
    const written = one({ summary: text });
    for (const line of written.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(octets);
    expect(written).not.toContain('\uFFFD');
    expect(plain(valueOf(written, 'SUMMARY'))).toBe(text);
  });
  it.each(escaped)('escapes $name ($source; $status)', (check) => {
    expect(valueOf(one({ summary: check.text }), 'SUMMARY')).toBe(check.escaped);
    expect(valueOf(one({ location: check.text }), 'LOCATION')).toBe(check.escaped);
  });
  it.each(spans)('dates $name ($source; $status)', ({ zone, start, end, lines }) => {
    const at = (local: string): Date => DateTime.fromISO(local, { zone }).toJSDate();
    expect(one({ startsAt: at(start), endsAt: at(end) }).split('\r\n')).toEqual(expect.arrayContaining(lines));
  });
  it('ends every line with CRLF and writes equal events equally', () => {
    expect(one({}).replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(one({})).toBe(one({}));
  });
});

describe('comma-separated text', () => {
  it.each(written)('writes $name ($source; $status)', ({ rows, text }) => expect(csvText(rows)).toBe(text));
  // OWASP, "CSV Injection": cells that begin with one of these are run as formulas.
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1'])('lets a spreadsheet not run %j', (text) => {
    expect(csvText([[text]]).replaceAll('"', '')).toBe(`'${text}\r\n`);
  });
  it('leaves numbers alone, a negative one too', () => expect(csvText([[-1.5, 0, null, 'a-b']])).toBe('-1.5,0,,a-b\r\n'));
});
