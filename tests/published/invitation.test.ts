// Tag: time.
// Invitations as another reader of iCalendar understands them (RFC 5545, RFC 5546), on the days on which clocks change too.
import ICAL from 'ical.js';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { calendarText, invitationText, type Invitation } from '@backsight/documents/calendar';
import { escaped, folded } from './data/icalendarCsv.ts';

const AT = new Date('2026-03-01T12:00:00Z');
const event = { uid: 'visit-1@backsight', startsAt: AT, endsAt: new Date('2026-03-01T15:00:00Z'), summary: 'Inspection', stampedAt: AT };
const invite = (more: Partial<Invitation['event']> = {}, method: Invitation['method'] = 'REQUEST'): string =>
  invitationText({
    method,
    organizer: { name: 'Test, Inspections; Inc.', email: 'office@test.example' },
    attendee: { name: 'Paula "P" Prior', email: 'paula@test.example' },
    event: { ...event, ...more },
  });
const read = (text: string) => {
  const calendar = new ICAL.Component(ICAL.parse(text) as [string, unknown[], unknown[]]);
  const one = calendar.getFirstSubcomponent('vevent')!;
  return {
    method: calendar.getFirstPropertyValue('method'),
    version: calendar.getFirstPropertyValue('version'),
    one,
    parsed: new ICAL.Event(one),
  };
};

describe('an invitation', () => {
  it('is a request with organizer, one attendee, uid, stamp and sequence', () => {
    const { method, version, one, parsed } = read(invite({ sequence: 2, location: '1 Quay St, Birchmere; WI' }));
    expect([method, version, parsed.uid, parsed.sequence, parsed.location]).toEqual([
      'REQUEST',
      '2.0',
      'visit-1@backsight',
      2,
      '1 Quay St, Birchmere; WI',
    ]);
    expect(one.getAllProperties('attendee')).toHaveLength(1);
    expect(
      [one.getFirstPropertyValue('organizer'), one.getFirstPropertyValue('attendee')].map((value) => String(value).toLowerCase()),
    ).toEqual(['mailto:office@test.example', 'mailto:paula@test.example']);
    expect(one.getFirstPropertyValue('dtstamp')!.toString()).toBe('2026-03-01T12:00:00Z');
  });
  it('is moved under the same uid with a higher sequence, and called off by a CANCEL that says so', () => {
    const [first, moved, off] = [read(invite({ sequence: 1 })), read(invite({ sequence: 2 })), read(invite({ sequence: 3 }, 'CANCEL'))];
    expect([first, moved, off].map(({ parsed }) => parsed.uid)).toEqual(Array.from({ length: 3 }, () => 'visit-1@backsight'));
    expect([first, moved, off].map(({ parsed }) => parsed.sequence)).toEqual([1, 2, 3]);
    expect([off.method, off.one.getFirstPropertyValue('status')]).toEqual(['CANCEL', 'CANCELLED']);
  });
  // United States rules of 2026: an hour is left out on 8 March and comes twice on 1 November.
  it.each([
    ['2026-03-08T00:30', '2026-03-08T04:30', 3],
    ['2026-11-01T00:30', '2026-11-01T04:30', 5],
    ['2026-03-07T09:00', '2026-03-07T12:00', 3],
  ])('from %s to %s in Chicago lasts %i hours for whoever reads it', (from, to, hours) => {
    const at = (local: string): Date => DateTime.fromISO(local, { zone: 'America/Chicago' }).toJSDate();
    const { parsed } = read(invite({ startsAt: at(from), endsAt: at(to) }));
    expect(parsed.startDate.toJSDate()).toEqual(at(from));
    expect(parsed.duration.toSeconds() / 3600).toBe(hours);
  });
  it.each(folded)('folds and reads back $name ($source; $status)', ({ text, octets }) => {
    const written = invite({ summary: text });
    for (const line of written.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(octets);
    expect(read(written).parsed.summary).toBe(text);
  });
  it.each(escaped)('escapes and reads back $name ($source; $status)', ({ text }) => {
    expect(read(invite({ summary: text, location: text })).parsed).toMatchObject({ summary: text, location: text });
  });
});

it('a feed reads back with every event and its sequence', () => {
  const text = calendarText('Ruth, Firm', [event, { ...event, uid: 'visit-2@backsight', sequence: 4, tentative: true }]);
  const events = new ICAL.Component(ICAL.parse(text) as [string, unknown[], unknown[]]).getAllSubcomponents('vevent');
  expect(
    events.map((one) => [one.getFirstPropertyValue('uid'), one.getFirstPropertyValue('sequence'), one.getFirstPropertyValue('status')]),
  ).toEqual([
    ['visit-1@backsight', 0, 'CONFIRMED'],
    ['visit-2@backsight', 4, 'TENTATIVE'],
  ]);
});
