// What can be written down at a step, and how it compares with what was expected.
import { describe, expect, it } from 'vitest';
import type { Evidence } from '@backsight/domain/procedures/step';
import { checkEntry, type GivenEntry } from '@backsight/domain/sitework/entry';
import { sayEntry, sayRange } from '@backsight/domain/sitework/say';
import type { EntryEvidence, KnownEntry } from '@backsight/domain/sitework/value';
import { aStep, anEntry } from './parts.ts';

const given = (more: Partial<GivenEntry> = {}): GivenEntry => ({
  outcome: 'done',
  evidence: { kind: 'confirm' },
  reason: null,
  note: null,
  ...more,
});
const check = (asked: Evidence, entry: GivenEntry, earlier: KnownEntry[] = [], after: string[] = []) =>
  checkEntry({ step: aStep('s', { evidence: asked, after }), item: null }, entry, {
    earlier,
    stepKeys: new Set(['s', 'before', ...after]),
  });

const PRESSURE: Evidence = { kind: 'reading', unit: 'PSI', expectedFrom: 40, expectedTo: 80 };
const AIR: Evidence = {
  kind: 'difference',
  unit: 'F',
  firstLabel: 'supply air',
  secondLabel: 'return air',
  expectedFrom: 14,
  expectedTo: 22,
};
const AFTER: Evidence = { kind: 'count', of: 'receptacles live', mustMatch: 'before' };
const CHOICE: Evidence = {
  kind: 'choice',
  options: [
    { key: 'ok', label: 'sound' },
    { key: 'bad', label: 'worn' },
  ],
};

describe('evidence that fits is taken, and compared', () => {
  it.each<[string, Evidence, EntryEvidence, string]>([
    ['within the range', PRESSURE, { kind: 'reading', value: 54, unit: 'PSI' }, 'as_expected'],
    ['its ends belong to it', PRESSURE, { kind: 'reading', value: 80, unit: 'PSI' }, 'as_expected'],
    ['outside is a hint, no refusal', PRESSURE, { kind: 'reading', value: 95, unit: 'PSI' }, 'outside'],
    ['no range, nothing asked', { kind: 'reading', unit: 'F' }, { kind: 'reading', value: 120, unit: 'F' }, 'not_asked'],
    ['one end only', { kind: 'reading', unit: 'ppm', expectedTo: 9 }, { kind: 'reading', value: 10, unit: 'ppm' }, 'outside'],
    ['return minus supply air', AIR, { kind: 'difference', first: 55.2, second: 73.4, unit: 'F' }, 'as_expected'],
    ['a difference the wrong way round is outside', AIR, { kind: 'difference', first: 73.4, second: 55.2, unit: 'F' }, 'outside'],
    [
      'an exact end in decimals',
      { ...AIR, expectedFrom: 14, expectedTo: 14 },
      { kind: 'difference', first: 0.2, second: 14.2, unit: 'F' },
      'as_expected',
    ],
    ['a choice', CHOICE, { kind: 'choice', option: 'bad' }, 'not_asked'],
  ])('%s', (_, asked, evidence, match) => {
    expect(check(asked, given({ evidence }))).toMatchObject({ ok: true, value: { match } });
  });
});

describe('a count that must match', () => {
  const now = given({ evidence: { kind: 'count', count: 4 } });
  const before = (count: number, more: Partial<KnownEntry> = {}) => [
    anEntry('before', 'a', { evidence: { kind: 'count', count }, ...more }),
  ];
  it.each<[string, KnownEntry[], string, string[]]>([
    ['is as expected when equal', before(4), 'as_expected', []],
    ['differs, accepted and said', before(5), 'differs', ['count-differs']],
    ['without the earlier count is accepted and said', [], 'not_asked', ['no-earlier-count']],
    ['does not look at another item', before(4, { itemId: 'other' }), 'not_asked', ['no-earlier-count']],
  ])('%s', (_, earlier, match, warned) => {
    const result = check(AFTER, now, earlier);
    expect(result).toMatchObject({ ok: true, value: { match } });
    expect(result.ok && result.warnings.map(({ code }) => code)).toEqual(warned);
  });
});

const PHOTO: Evidence = { kind: 'photo', of: 'the data plate' };

describe('what cannot belong to the step is refused', () => {
  it.each<[string, Evidence, Partial<GivenEntry>, string]>([
    ['another unit', PRESSURE, { evidence: { kind: 'reading', value: 3, unit: 'bar' } }, 'entry-unit'],
    ['an answer that is not offered', CHOICE, { evidence: { kind: 'choice', option: 'fine' } }, 'entry-not-an-option'],
    ['another kind of evidence', PRESSURE, { evidence: { kind: 'confirm' } }, 'entry-other-evidence'],
    ['done without evidence', PRESSURE, { evidence: null }, 'entry-other-evidence'],
    ['a photo step without a photo', PHOTO, { evidence: { kind: 'photo' } }, 'entry-photo-missing'],
    ['another reason for no photo without words', PHOTO, { evidence: { kind: 'photo', without: 'other' } }, 'entry-note-missing'],
    ['a photo and a reason for none', PHOTO, { evidence: { kind: 'photo', without: 'camera' }, photos: ['p'] }, 'entry-photo-and-reason'],
    ['a note without words', { kind: 'note', prompt: 'x' }, { evidence: { kind: 'note' }, note: '  ' }, 'entry-note-missing'],
    ['could not, without a reason', PRESSURE, { outcome: 'could_not', evidence: null }, 'entry-reason-missing'],
    [
      'another reason without written words',
      PRESSURE,
      { outcome: 'could_not', evidence: null, reason: 'other', spoken: ['s'] },
      'entry-note-missing',
    ],
    [
      'a reading of what was not inspected',
      PRESSURE,
      { outcome: 'could_not', reason: 'locked', evidence: { kind: 'reading', value: 1, unit: 'PSI' } },
      'entry-evidence-of-nothing',
    ],
  ])('%s', (_, asked, more, code) => {
    expect(check(asked, given(more))).toMatchObject({ ok: false, code });
  });
  it.each<[string, Partial<GivenEntry>]>([
    ['unsafe needs no further word', { outcome: 'could_not', reason: 'unsafe', evidence: null }],
    ['none at this property needs nothing', { outcome: 'none_at_property', evidence: null }],
  ])('%s', (_, more) => {
    expect(check(PRESSURE, given(more))).toMatchObject({ ok: true, value: { match: 'not_asked' }, warnings: [] });
  });
  it.each<[string, Partial<GivenEntry>]>([
    ['a photo that follows', { evidence: { kind: 'photo' }, photos: ['p'] }],
    ['no photo, with its reason', { evidence: { kind: 'photo', without: 'private' } }],
    ['not inspected needs no photo', { outcome: 'could_not', reason: 'locked', evidence: null }],
  ])('%s', (_, more) => {
    expect(check(PHOTO, given(more))).toMatchObject({ ok: true, value: { match: 'not_asked' }, warnings: [] });
  });
});

it('a spoken note stands for a written one, where a note is asked for and where a reading is outside', () => {
  const NOTE: Evidence = { kind: 'note', prompt: 'x' };
  const spoken = check(NOTE, given({ evidence: { kind: 'note' }, spoken: ['s'] }));
  expect(spoken).toMatchObject({ ok: true, warnings: [] });
  const outside = (more: Partial<GivenEntry>) => check(PRESSURE, given({ evidence: { kind: 'reading', value: 95, unit: 'PSI' }, ...more }));
  expect(outside({})).toMatchObject({ warnings: [{ code: 'outside-without-note' }] });
  expect(outside({ spoken: ['s'] })).toMatchObject({ warnings: [] });
});

describe('order', () => {
  it('is a warning where an earlier step has no entry, and quiet where it has or does not apply', () => {
    const warned = (earlier: KnownEntry[], after: string[]) => {
      const result = check({ kind: 'confirm' }, given(), earlier, after);
      return result.ok && result.warnings.map(({ code }) => code);
    };
    expect(warned([], ['ask'])).toEqual(['before-its-order']);
    expect(warned([anEntry('ask', 'a')], ['ask'])).toEqual([]);
    expect(
      checkEntry({ step: aStep('s', { after: ['not-here'] }), item: null }, given(), { earlier: [], stepKeys: new Set(['s']) }),
    ).toMatchObject({ ok: true, warnings: [] });
  });
});

describe('in words', () => {
  it.each<[Evidence, Parameters<typeof sayEntry>[0], string]>([
    [PRESSURE, given({ evidence: { kind: 'reading', value: 54, unit: 'PSI' } }), '54 PSI'],
    [AIR, given({ evidence: { kind: 'difference', first: 55, second: 73, unit: 'F' } }), '18 F (55 to 73)'],
    [CHOICE, given({ evidence: { kind: 'choice', option: 'bad' } }), 'worn'],
    [AFTER, given({ evidence: { kind: 'count', count: 4 } }), 'receptacles live: 4'],
    [AFTER, given({ evidence: { kind: 'count', count: 1 } }), 'receptacles live: 1'],
    [CHOICE, given({ outcome: 'could_not', reason: 'locked', evidence: null }), 'could not be inspected: locked or sealed'],
    [CHOICE, given({ outcome: 'none_at_property', evidence: null }), 'none at this property'],
  ])('%#', (asked, entry, words) => {
    expect(sayEntry(entry, asked)).toBe(words);
  });
  it('names the range', () => {
    expect([
      sayRange(PRESSURE),
      sayRange({ kind: 'reading', unit: 'ppm', expectedTo: 9 }),
      sayRange({ kind: 'reading', unit: 'F', expectedFrom: 1 }),
      sayRange(CHOICE),
    ]).toEqual(['usually 40 to 80 PSI', 'usually 9 ppm or less', 'usually 1 F or more', null]);
  });
});
