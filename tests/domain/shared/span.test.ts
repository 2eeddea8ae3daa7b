// Tag: time.
// Spans of time in words, across the change of the clocks too (common practice: the last day away is named, not the midnight after it).
import { expect, it } from 'vitest';
import { spanInWords } from '@backsight/domain/shared/span';

it.each([
  ['2026-12-08T06:00:00Z', '2026-12-10T06:00:00Z', 'Tue, Dec 8, 2026 to Wed, Dec 9, 2026, whole days'],
  ['2026-12-08T06:00:00Z', '2026-12-09T06:00:00Z', 'Tue, Dec 8, 2026, the whole day'],
  ['2026-10-31T05:00:00Z', '2026-11-02T06:00:00Z', 'Sat, Oct 31, 2026 to Sun, Nov 1, 2026, whole days'],
  ['2026-12-08T15:00:00Z', '2026-12-08T18:30:00Z', 'Tue, Dec 8, 2026, 9:00 AM to Tue, Dec 8, 2026, 12:30 PM'],
])('%s to %s is "%s"', (from, until, words) => expect(spanInWords(new Date(from), new Date(until), 'America/Chicago')).toBe(words));
