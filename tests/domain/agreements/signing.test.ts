// Signing without a database: the word of the PDF, drawings, answers, a device's clock, and what a new agreement changed.
import { describe, expect, it } from 'vitest';
import { changesBetween } from '@backsight/domain/agreements/changes';
import { gateOfFacts } from '@backsight/domain/agreements/gate';
import { maySignAs, wantsPaper } from '@backsight/domain/agreements/signers';
import { decideAnswer, formatWord, saysWord, signedAt } from '@backsight/domain/agreements/signing';
import { LONGEST_DRAWING, MOST_POINTS, pathOf, readStrokes } from '@backsight/domain/shared/strokes';

const LINE = [10, 100, 200, 120];

describe('the word of the PDF (15 USC 7001(c)(1)(C)(ii): consent in a way that shows that the format can be opened)', () => {
  const [sha, id] = ['0f'.repeat(32), '0199c0de-0000-7000-8000-00000000000a'];
  it('is one plain word, the same each time, and another for another signer', () => {
    expect(formatWord(sha, id)).toMatch(/^[a-z]{3,10}$/);
    expect(formatWord(sha, id)).toBe(formatWord(sha, id));
    expect(formatWord(sha, id)).not.toBe(formatWord(sha, `${id.slice(0, -1)}b`));
  });
  it.each([
    ['heron', true],
    [' Heron. ', true],
    ['HERON', true],
    ['', false],
    ['her on x', false],
    ['egret', false],
  ])('typed as "%s" is taken: %s', (typed, taken) => expect(saysWord(typed, 'heron')).toBe(taken));
});

describe('a drawn signature', () => {
  it.each([
    ['a line', JSON.stringify([LINE]), true],
    ['nothing', '[]', 'drawing-empty'],
    ['a dot', '[[5,5]]', 'drawing-empty'],
    ['no list', '{"a":1}', 'drawing-unreadable'],
    ['no JSON', '[[1,2', 'drawing-unreadable'],
    ['an odd number of coordinates', '[[1,2,3]]', 'drawing-unreadable'],
    ['a point outside', '[[1,2,601,4]]', 'drawing-unreadable'],
    ['a negative one', '[[-1,2,3,4]]', 'drawing-unreadable'],
    ['half units', '[[1.5,2,3,4]]', 'drawing-unreadable'],
    ['words', '[["a","b"]]', 'drawing-unreadable'],
    ['too many points', JSON.stringify([Array.from({ length: 2 * MOST_POINTS + 2 }, () => 1)]), 'drawing-unreadable'],
    ['too long a text', ' '.repeat(LONGEST_DRAWING + 1), 'drawing-unreadable'],
  ])('%s', (_, text, expected) => {
    const read = readStrokes(text);
    if (expected === true) expect(read.ok).toBe(true);
    else expect(read).toMatchObject({ ok: false, code: expected });
  });
  it('becomes the path of a picture', () => expect(pathOf([LINE, [5, 6]])).toBe('M10 100L200 120M5 6L5 6'));
});

describe('an answer instead of a signature', () => {
  it('wants a reason when it is no, and none when it is paper', () => {
    expect(decideAnswer('declined', ' ')).toMatchObject({ code: 'answer-reason-missing', field: 'reason' });
    expect(decideAnswer('declined', ' Too dear. ')).toMatchObject({ value: { reason: 'Too dear.' } });
    expect(decideAnswer('wants_paper', '')).toMatchObject({ ok: true });
  });
  const at = (happenedAt: string) => ({ kind: 'wants_paper' as const, happenedAt });
  const signed = (method: string, happenedAt: string) => ({ method, happenedAt });
  it.each([
    ['asked before signing on paper', at('2026-05-12T10:00:00.000Z'), signed('paper', '2026-05-12T12:00:00.000Z'), true],
    ['asked, then signed on the page after all', at('2026-05-12T10:00:00.000Z'), signed('link', '2026-05-12T12:00:00.000Z'), false],
    ['taken back after signing', at('2026-05-12T14:00:00.000Z'), signed('link', '2026-05-12T12:00:00.000Z'), true],
    ['never asked', null, signed('link', '2026-05-12T12:00:00.000Z'), false],
  ])('for paper: %s', (_, answer, signature, wanted) => expect(wantsPaper({ answer, signature })).toBe(wanted));
  it('is said at the gate, which stays shut', () => {
    const signers = [
      { name: 'Ann', signed: false, answer: { kind: 'declined' as const, reason: 'The cap is too low' } },
      { name: 'Bo', signed: true, answer: null },
    ];
    const facts = {
      jobKind: 'inspection' as const,
      everySigner: true,
      terms: 'due_at_visit' as const,
      feeCents: 0,
      invoicedCents: 0,
      paidCents: 0,
      depositCents: 0,
      depositCloses: false,
    };
    const gate = gateOfFacts({ ...facts, signers, unacknowledged: [] });
    expect(gate.missing).toEqual(['agreement-unsigned']);
    expect(gate.sentences[0]).toContain('Ann declined to sign: The cap is too low.');
    expect(gateOfFacts({ ...facts, signers: signers.map((s) => ({ ...s, signed: true })), unacknowledged: [] }).sentences).toEqual([]);
  });
});

describe('the clock of a device without signal', () => {
  const [issued, now] = [new Date('2026-05-12T10:00:00Z'), new Date('2026-05-12T16:00:00Z')];
  it.each([
    ['is kept', '2026-05-12T14:00:00Z', '2026-05-12T14:00:00.000Z'],
    ['ahead of ours is set to ours', '2026-05-12T18:00:00Z', '2026-05-12T16:00:00.000Z'],
    ['from before the agreement is set to its issue', '2020-01-01T00:00:00Z', '2026-05-12T10:00:00.000Z'],
  ])('%s', (_, device, expected) => expect(signedAt(new Date(device), issued, now).toISOString()).toBe(expected));
  it('is ours where there was signal', () => expect(signedAt(null, issued, now)).toBe(now));
});

describe('who signs for somebody else', () => {
  it('has the paper on file or the reason why not', () => {
    expect(maySignAs('trustee', '')).toMatchObject({ code: 'authority-missing' });
    expect(maySignAs('trustee', '', true).ok).toBe(true);
    expect(maySignAs('trustee', 'deed is with the bank').ok).toBe(true);
  });
});

describe('what changed since the agreement before', () => {
  it.each([
    ['nothing', 'a\nb', 'a\n\nb', []],
    ['a line', 'a\nFee: $1\nb', 'a\nFee: $2\nb', [{ was: 'Fee: $1', now: 'Fee: $2' }]],
    ['a line more', 'a\nb', 'a\nnew\nb', [{ was: null, now: 'new' }]],
    ['a line less', 'a\ngone\nb', 'a\nb', [{ was: 'gone', now: null }]],
    ['all', 'a', 'b', [{ was: 'a', now: 'b' }]],
    ['from nothing', '', 'b', [{ was: null, now: 'b' }]],
    [
      'a clause more, and the numbers after it',
      '## 1. Fee\na\n## 2. Access\nb',
      '## 1. Fee\na\n## 2. Pool\n**None** is looked at.\n## 3. Access\nb',
      [
        { was: null, now: '2. Pool' },
        { was: null, now: 'None is looked at.' },
      ],
    ],
    [
      'two apart',
      'a\n1\nb\n2',
      'a\n3\nb\n4',
      [
        { was: '1', now: '3' },
        { was: '2', now: '4' },
      ],
    ],
  ])('%s', (_, before, after, expected) => expect(changesBetween(before, after)).toEqual(expected));
});
