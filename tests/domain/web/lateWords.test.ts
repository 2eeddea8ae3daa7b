// Tag: time.
// What a caller is told: about cancelling by the same rules as `lateCharge` charges, and about report, fee, licenses and hours.
import { describe, expect, it } from 'vitest';
import { closedWords, hoursWords, licenseWords, payWords, reportWords } from '../../../apps/web/src/features/booking/answers.ts';
import { lateWords } from '../../../apps/web/src/features/booking/lateWords.ts';

describe('what moving and cancelling cost, in words', () => {
  it.each([
    ['nothing is set', { hours: 24, cancelPercent: 0, movePercent: 0 }, 'Cancelling and moving cost nothing.'],
    [
      'percents',
      { hours: 24, cancelPercent: 50, movePercent: 0 },
      'Nothing until 24 hours before the start. Later, cancelling costs 50% of the fee, moving nothing.',
    ],
    [
      'an amount goes before the percent',
      { hours: 48, cancelPercent: 50, movePercent: 10, moveCents: 7_500 },
      'Nothing until 48 hours before the start. Later, cancelling costs 50% of the fee, moving $75.00.',
    ],
    [
      'the whole fee near the start',
      { hours: 48, fullHours: 12, cancelPercent: 50, movePercent: 25 },
      'Nothing until 48 hours before the start. Later, cancelling costs 50% of the fee, moving 25% of the fee. Less than 12 hours before, or after the start, the whole fee is due.',
    ],
    [
      'the whole fee alone',
      { hours: 24, fullHours: 24, cancelPercent: 50, movePercent: 0 },
      'Nothing until 24 hours before the start. Less than 24 hours before, or after the start, the whole fee is due.',
    ],
  ])('%s', (_name, late, words) => expect(lateWords(late)).toBe(words));
});

describe('what callers also ask', () => {
  const WORKS = { 1: [480, 1020], 2: [480, 1020], 3: [480, 1020], 4: [480, 1020], 5: [480, 990], 6: null, 7: [600, 720] } as const;
  const held = (number: string, fromDay: string, untilDay: string, kind = 'home_inspector') => ({
    id: number,
    kind,
    number,
    fromDay,
    untilDay,
  });
  it.each([
    [
      'the report, no start yet',
      reportWords(2, null, true),
      'Within 2 days of the visit, once the agreement is signed and the fee is paid.',
    ],
    ['the report of a visit', reportWords(1, '2026-12-31', false), 'By Fri, Jan 1, 2027, once the agreement is signed.'],
    ['the report of the same day', reportWords(0, null, false), 'On the day of the visit, once the agreement is signed.'],
    [
      'a deposit',
      payWords('deposit', { depositPercent: 30, closingDays: 30 }),
      'A deposit of 30% is due before the visit and held for the client until then; the rest on its day.',
    ],
    [
      'through the closing',
      payWords('billed_to_closing', { depositPercent: 30, closingDays: 1 }),
      'Through the closing, 1 day after the visit at the latest, whether or not the sale closes.',
    ],
    [
      'the license of that day',
      licenseWords({ licenses: [held('1', '2022-12-15', '2024-12-14'), held('2', '2024-12-15', '2026-12-14')] }, '2026-12-14'),
      'license 2, until Mon, Dec 14, 2026',
    ],
    [
      'no license of that day',
      licenseWords({ licenses: [held('2', '2024-12-15', '2026-12-14')] }, '2026-12-15'),
      'no license on file for that day',
    ],
    [
      'another paper',
      licenseWords({ licenses: [held('9', '2024-01-01', '2030-01-01', 'pest')] }, '2026-12-15'),
      'no license on file for that day',
    ],
    ['hours', hoursWords({ ...WORKS } as never), 'Mon to Thu 8 AM to 5 PM; Fri 8 AM to 4:30 PM; Sun 10 AM to 12 PM'],
    [
      'days closed from now on',
      closedWords(
        {
          closedDays: [
            { day: '2026-11-26', name: 'Thanksgiving' },
            { day: '2026-12-25', name: 'Christmas' },
          ],
        },
        '2026-11-29',
      ),
      'Fri, Dec 25, 2026 (Christmas)',
    ],
  ])('%s', (_name, said, words) => expect(said).toBe(words));
});
