// What is missing before the seal, by system: counts, whose it is, and what one press may confirm.
import { describe, expect, it } from 'vitest';
import type { KnownAct } from '@backsight/domain/sitework/act';
import { groupMissing } from '@backsight/domain/sitework/missingGroups';
import { anAct } from './parts.ts';

type Step = Parameters<typeof groupMissing>[1][number];
const step = (stepKey: string, procedureTitle: string, more: Partial<Step> = {}): Step => ({
  ...{ stepKey, procedureTitle, system: procedureTitle, per: 'property', itemId: null, place: 'elsewhere' },
  ...{ partnerCheck: false, style: 'do_then_confirm', evidence: { kind: 'confirm' } },
  ...more,
});
const miss = ({ stepKey, itemId }: Step, person: string | null = null) => ({ stepKey, itemId, person });
const plain = (steps: Step[], acts: KnownAct[] = []) =>
  groupMissing(
    steps.map((one) => miss(one)),
    steps,
    { me: 'ann', acts },
  ).flatMap((group) => group.plain.map(({ stepKey }) => stepKey));

describe('what is missing', () => {
  it('stands by system in the order of the record, whatever order it is told in, and says how much each of the pair has left', () => {
    const [a, b, both, c] = [
      step('a', 'Roof'),
      step('b', 'Roof'),
      step('both', 'Roof', { partnerCheck: true }),
      step('c', 'Garage', { itemId: 'g1' }),
    ];
    const missing = [miss(c), miss(both, 'ben'), miss(both, 'ann'), miss(a)];
    const groups = groupMissing(missing, [a, b, both, c], { me: 'ann', acts: [] });
    expect(
      groups.map(({ title, missing: all, mine }) => [title, all.map(({ step: at, person }) => [at.stepKey, person]), mine.length]),
    ).toEqual([
      [
        'Roof',
        [
          ['a', null],
          ['both', 'ben'],
          ['both', 'ann'],
        ],
        2,
      ],
      ['Garage', [['c', null]], 1],
    ]);
    expect(groupMissing([miss(both, 'ben')], [both], { me: 'ann', acts: [] })[0]!.mine).toEqual([]);
    expect(groupMissing([], [a], { me: 'ann', acts: [] })).toEqual([]);
  });
  it.each<[string, Partial<Step>, KnownAct[], boolean]>([
    ['is done first and asks for no answer', {}, [], true],
    ['asks for an answer', { evidence: { kind: 'choice' } }, [], false],
    ['asks for a photo', { evidence: { kind: 'photo' } }, [], false],
    ['is read before it is done', { style: 'read_then_do' }, [], false],
    ['is recorded by both', { partnerCheck: true }, [], false],
    ['is at a place that nobody has looked at', { place: 'attic' }, [], false],
    ['is at a place that was looked at', { place: 'attic' }, [anAct({ do: 'hazard_look', place: 'attic', item: null, stops: [] })], true],
    [
      'is at a place where nobody goes',
      { place: 'attic' },
      [anAct({ do: 'hazard_look', place: 'attic', item: null, stops: ['heat'] })],
      false,
    ],
  ])('one press may confirm what %s', (_, more, acts, yes) => expect(plain([step('a', 'Attic', more)], acts)).toEqual(yes ? ['a'] : []));
});
