// Tag: time.
// How a screen writes times and reads them, held against the library that the service counts with.
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { clockText, dayText, instantText, localInput, toInstant } from '../../../apps/web/src/ui/time.ts';

const ZONES = ['America/Chicago', 'America/Phoenix', 'Asia/Kolkata', 'Australia/Lord_Howe', 'UTC'];
/** Through two years in steps of 43 h, and every 13 minutes through a night in which Chicago puts its clock forward, and one in which back. */
const INSTANTS = [
  ...Array.from({ length: 400 }, (_, n) => Date.UTC(2025, 0, 1) + n * 43 * 3_600_000),
  ...['2026-03-08T05:00Z', '2026-11-01T04:00Z'].flatMap((from) => Array.from({ length: 28 }, (_, n) => Date.parse(from) + n * 13 * 60_000)),
];

describe('times on a screen', () => {
  it.each(ZONES)('are those of the library in %s', (zone) => {
    const wrong = INSTANTS.flatMap((at) => {
      const iso = new Date(at).toISOString();
      const theirs = DateTime.fromISO(iso, { zone, locale: 'en-US' });
      const year = theirs.year === DateTime.now().setZone(zone).year ? '' : ', yyyy';
      const told = [clockText(iso, zone), localInput(new Date(at), zone), instantText(iso, zone), dayText(theirs.toISODate()!)];
      const right = ['h:mm a', "yyyy-MM-dd'T'HH:mm", `ccc, LLL d${year}, h:mm a`, 'ccc, LLL d, yyyy'].map((format) =>
        theirs.toFormat(format),
      );
      const back = toInstant(theirs.toFormat("yyyy-MM-dd'T'HH:mm"), zone);
      const twice = theirs.getPossibleOffsets().length > 1;
      return told.join() === right.join() && (twice || back === iso) ? [] : [{ told, right, back, iso }];
    });
    expect(wrong).toEqual([]);
  });
  it.each([
    ['a time that the clock skips', '2026-03-08T02:30', '2026-03-08T08:30:00.000Z'],
    ['the first of one that comes twice', '2026-11-01T01:30', '2026-11-01T06:30:00.000Z'],
    ['what is no time', 'soon', 'soon'],
    ['nothing', '', ''],
  ])('read %s', (_, said, instant) => expect(toInstant(said, 'America/Chicago')).toBe(instant));
  it('leave what is no time as it is', () =>
    expect([instantText('soon', 'UTC'), clockText('soon', 'UTC'), dayText('soon')]).toEqual(['soon', 'soon', 'soon']));
});
