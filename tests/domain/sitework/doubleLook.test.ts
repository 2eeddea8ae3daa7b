// The sample of double looks: how many visits, which steps, and never one that only one person can reach.
import { describe, expect, it } from 'vitest';
import { doubleLookOf, MOST_DOUBLE } from '@backsight/domain/sitework/doubleLook';
import { makePackage } from '@backsight/domain/sitework/package';
import { aStep, revision } from './parts.ts';

const choice = { kind: 'choice', options: [{ key: 'a', label: 'a' }] } as const;
const book = [
  revision('roof', [
    aStep('r1', { evidence: choice }),
    aStep('r2', { evidence: choice }),
    aStep('r3', { evidence: choice }),
    aStep('r4', { evidence: choice }),
  ]),
  revision('structure', [
    aStep('s1', { evidence: choice }),
    aStep('alone', { evidence: choice, onePersonOnly: true }),
    aStep('ordered', { evidence: choice, sequence: 'q' }),
    aStep('confirmed'),
    aStep('checked', { evidence: choice, who: 'partner_check' }),
  ]),
];
const context = { facts: {}, services: [], serviceNames: {}, day: '2026-05-12', items: [], pair: true };
const twice = (more: object) =>
  makePackage(book, { ...context, ...more }).flatMap(({ step, partnerCheck }) => (partnerCheck ? [step.key] : []));

describe('the system that is looked at twice', () => {
  it.each<[string, object, string[]]>([
    ['none where the visit is not in the sample', { doubleLook: null }, ['checked']],
    ['the first system, a few steps of it', { doubleLook: 0 }, ['r1', 'r2', 'r3', 'checked']],
    ['the other, without what one person reaches, an order or a bare confirmation', { doubleLook: 0.99 }, ['s1', 'checked']],
    ['none on a visit of one person', { doubleLook: 0, pair: false }, []],
  ])('%s', (_, more, keys) => expect(twice(more)).toEqual(keys));
  it('says why it is looked at twice', () => {
    expect(makePackage(book, { ...context, doubleLook: 0 })[0]!.because).toContain('looked at twice');
    expect(MOST_DOUBLE).toBe(3);
  });
});

describe('the sample', () => {
  const ids = Array.from({ length: 4000 }, (_, n) => `019a0000-0000-7000-8000-${String(n).padStart(12, '0')}`);
  it('holds about one visit in five, the same for everybody, spread over all systems', () => {
    const drawn = ids.flatMap((id) => doubleLookOf(id, 5) ?? []);
    // binomial: 800 of 4,000, standard deviation 25; five of them on either side
    expect(Math.abs(drawn.length - 800)).toBeLessThan(127);
    for (const part of [0, 1, 2, 3]) expect(drawn.filter((pick) => Math.floor(pick * 4) === part).length).toBeGreaterThan(120);
    expect(doubleLookOf(ids[0]!, 5)).toBe(doubleLookOf(ids[0]!, 5));
  });
  it('holds none or all of them when it is so set', () => {
    expect(ids.every((id) => doubleLookOf(id, 0) === null)).toBe(true);
    expect(ids.every((id) => doubleLookOf(id, 1) !== null)).toBe(true);
  });
});
