// Whether a visit may end early, and what of the fee is charged. The percents are examples, not a source.
import { describe, expect, it } from 'vitest';
import { chargeOf } from '@backsight/domain/shared/charge';
import { chargeLine, feeAfterRebooking, mayEndEarly, type EndingCommand, type EndingFacts } from '@backsight/domain/sitework/ending';

const STARTS = new Date('2026-05-12T14:00:00Z');
const NOW = new Date('2026-05-12T14:40:00Z');
const facts: EndingFacts = { visitState: 'booked', startsAt: STARTS, recordOpen: false, recordEnded: false };
const inside: EndingFacts = { ...facts, visitState: 'on_site', recordOpen: true };
const said: EndingCommand = { kind: 'nobody_came', endedAt: NOW, waitedMinutes: 30, callsMade: 2, reportOwed: 'no' };

describe('ending a visit early', () => {
  it.each<[string, EndingFacts, Partial<EndingCommand>, string | null]>([
    ['nobody came', facts, {}, null],
    ['refused at the door', facts, { kind: 'refused_at_the_door', waitedMinutes: null, callsMade: null }, null],
    ['a dog before the start', facts, { kind: 'stopped_for_safety' }, null],
    ['stopped part-way, report owed', inside, { kind: 'stopped_by_client', reportOwed: 'yes' }, null],
    ['nobody came, without the minutes', facts, { waitedMinutes: null }, 'waiting-missing'],
    ['nobody came, without the calls', facts, { callsMade: null }, 'waiting-missing'],
    ['nobody came, from inside', inside, {}, 'ended-inside'],
    ['refused, from inside', inside, { kind: 'refused_at_the_door' }, 'ended-inside'],
    ['a report about nothing', facts, { reportOwed: 'yes' }, 'report-without-record'],
    ['in an hour', facts, { endedAt: new Date('2026-05-12T15:40:00Z') }, 'ended-ahead'],
    ['the day before', facts, { endedAt: new Date('2026-05-11T14:40:00Z') }, 'ended-before-start'],
    ['twice', { ...inside, recordEnded: true }, { kind: 'stopped_by_client' }, 'record-ended'],
    ['after it was done', { ...facts, visitState: 'done' }, {}, 'visit-is'],
    ['when it was only held', { ...facts, visitState: 'held' }, {}, 'visit-is'],
  ])('%s', (_, about, more, code) => {
    const decided = mayEndEarly(about, { ...said, ...more }, NOW);
    expect(decided.ok ? null : decided.code).toBe(code);
  });
});

describe('the charge', () => {
  it.each([
    [57_500, 50, 28_750],
    [57_501, 50, 28_751],
    [57_500, 0, 0],
    [57_500, 100, 57_500],
    [33_333, 33.33, 11_110],
  ])('of %i cents at %d percent is %i', (fee, percent, cents) => {
    expect(chargeOf(fee, percent)).toEqual({ percent, feeCents: fee, cents });
  });
  it('is a line that takes the rest off, and none when all is kept', () => {
    expect(chargeLine(chargeOf(10_000, 25), 'k', 'Ended', 'by the rule')).toEqual([
      { rule: 'k', label: 'Ended', reason: 'by the rule; 25% of $100.00 is charged', cents: -7_500 },
    ]);
    expect(chargeLine(chargeOf(10_000, 100), 'k', 'Ended', 'by the rule')).toEqual([]);
  });
  it('stands beside the fee when that is due again, and falls away when the fee covers both', () => {
    const lines = [
      { rule: 'base', label: 'Base', reason: 'x', cents: 10_000 },
      { rule: 'k', label: 'Ended', reason: 'x', cents: -7_500 },
    ];
    const cents = (again: boolean) => feeAfterRebooking(lines, { key: 'k', label: 'Earlier visit' }, 2_500, again).map((l) => l.cents);
    expect(cents(true)).toEqual([10_000, 2_500]);
    expect(cents(false)).toEqual([10_000]);
  });
});
