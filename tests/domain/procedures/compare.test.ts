// The comparison of two revisions: nothing is said when nothing changed, every change is named, and only really moved steps are called moved.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareRevisions } from '@backsight/domain/procedures/compare';
import { movedKeys } from '@backsight/domain/shared/moved';
import { sameValue } from '@backsight/domain/procedures/sameValue';
import type { Step } from '@backsight/domain/procedures/step';
import { wordMarks } from '@backsight/domain/shared/wordMarks';
import { ATTIC_STEPS_REVISED } from '../../../prisma/seed/procedures/atticRevision.ts';
import { PROCEDURES, revised } from '../../../prisma/seed/procedures/book.ts';
import { aStep } from './aStep.ts';

const A = aStep('a');
const B = aStep('b');
const C = aStep('c');
const sentences = (before: Step[], after: Step[]) =>
  compareRevisions(before, after).differences.flatMap((one) => one.sentences.map((text) => `${one.key}: ${text}`));
const changed = (edit: Partial<Step>) => sentences([A], [{ ...A, ...edit }]);

describe('lists of steps', () => {
  it.each<[string, Step[], Step[], string[]]>([
    ['added in the middle', [A, C], [A, B, C], ['b: Added after "Step a".']],
    ['added first', [A], [B, A], ['b: Added at the beginning.']],
    ['removed', [A, B, C], [A, C], ['b: Removed.']],
    [
      'replaced',
      [A, B],
      [A, aStep('b2', { derivedFrom: 'b' })],
      ['b2: Added after "Step a". It takes over from "Step b".', 'b: Removed: "Step b2" takes its place.'],
    ],
    ['one moved to the end: only that one', [A, B, C], [B, C, A], ['a: Moved: it now comes after "Step c"; before, at the beginning.']],
    ['two neighbors exchanged: one of them', [A, B], [B, A], ['a: Moved: it now comes after "Step b"; before, at the beginning.']],
    ['a step before it removed is no move', [A, B, C], [B, C], ['a: Removed.']],
    ['nothing', [A, B], [A, B], []],
  ])('%s', (_name, before, after, expected) => expect(sentences(before, after).toSorted()).toEqual(expected.toSorted()));
  it('sums up', () => {
    expect(compareRevisions([A, B, C], [C, { ...A, minutes: 9 }, aStep('d')]).summary).toBe(
      'Steps: 1 added, 1 removed, 1 moved and 1 changed.',
    );
    expect(compareRevisions([A], [A]).summary).toBe('Nothing has changed.');
  });
  it('keeps the order of the new revision and leaves removed steps where they stood', () => {
    expect(compareRevisions([A, B, C], [{ ...A, minutes: 9 }, aStep('d'), { ...C, minutes: 9 }]).differences.map(({ key }) => key)).toEqual(
      ['a', 'b', 'd', 'c'],
    );
  });
});

describe('one step', () => {
  const reading = { kind: 'reading', unit: 'F', expectedFrom: 14, expectedTo: 22 } as const;
  it.each<[string, Partial<Step>, Partial<Step>, string]>([
    ['range', { evidence: reading }, { evidence: { ...reading, expectedTo: 20 } }, 'Expected range: 14 to 20 F; before, 14 to 22 F.'],
    ['range taken away', { evidence: reading }, { evidence: { kind: 'reading', unit: 'F' } }, 'Expected range: none; before, 14 to 22 F.'],
    [
      'unit',
      { evidence: reading },
      { evidence: { ...reading, unit: 'C' } },
      'It is recorded as: a reading in C, expected 14 to 22 C; before, a reading in F, expected 14 to 22 F.',
    ],
    [
      'option',
      {
        evidence: {
          kind: 'choice',
          options: [
            { key: 'y', label: 'yes' },
            { key: 'n', label: 'no' },
          ],
        },
      },
      {
        evidence: {
          kind: 'choice',
          options: [
            { key: 'y', label: 'yes' },
            { key: 'n', label: 'none found' },
          ],
        },
      },
      'It is recorded as: a choice: "yes" or "none found"; before, a choice: "yes" or "no".',
    ],
    [
      'rule',
      {},
      { applies: { fact: 'foundation', compare: 'includes', value: 'crawl_space' } },
      'It applies: when the foundation includes a crawl space; before, at every property.',
    ],
    [
      'rule in another notation',
      { applies: { all: [{ service: 'x' }] } },
      { applies: { service: 'x' } },
      'It applies: when x ordered; written otherwise, but it means the same.',
    ],
    ['items', {}, { per: 'panel' }, 'It is done: for each electrical panel; before, once at the property.'],
    ['place', {}, { place: 'roof' }, 'Where it is done: at the roof; before, not said, so as its system has it.'],
    ['other place', { place: 'attic' }, { place: 'elsewhere' }, 'Where it is done: elsewhere; before, at the attic.'],
    ['who', {}, { who: 'first' }, 'It is recorded by: the first of the pair; before, either of the pair.'],
    [
      'one person only',
      {},
      { onePersonOnly: true },
      'It is recorded by: either of the pair; only one person can enter; before, either of the pair.',
    ],
    ['order', {}, { after: ['b'] }, 'Order: after "b"; before, free.'],
    ['sequence', {}, { sequence: 's' }, 'Order: in one go with the sequence "s"; before, free.'],
    ['style', {}, { style: 'read_then_do' }, 'Way of working: read, then do; before, do, then confirm.'],
    ['minutes', {}, { minutes: 4 }, 'Planned minutes: 4; before, 2.'],
    ['kit', {}, { kit: ['ladder'] }, 'Kit: ladder; before, none.'],
    ['qualification', {}, { qualification: 'radon' }, 'Qualification needed: radon; before, none.'],
    ['basis', {}, { basis: { kind: 'duty', rows: ['R-1'] } }, 'It is: duty by R-1; before, our own extra.'],
    [
      'references',
      {},
      { references: [{ title: 'T', section: '1', edition: '2021', status: 'from memory' }] },
      'References: added T, 1, 2021, from memory.',
    ],
    ['caution added', {}, { caution: 'Hot.' }, 'The caution is added.'],
    ['caution removed', { caution: 'Hot.' }, {}, 'The caution is removed.'],
    ['instruction', {}, { instruction: 'Look twice.' }, 'The instruction is reworded.'],
    ['title', {}, { title: 'Other' }, 'The title is reworded.'],
    ['why', {}, { why: 'Because.' }, 'The reason is reworded.'],
  ])('%s', (_name, was, now, sentence) => expect(sentences([{ ...A, ...was }], [{ ...A, ...now }])).toEqual([`a: ${sentence}`]));
  it('says nothing about the order of members or of what is absent', () => {
    const turned = Object.fromEntries(Object.entries(A).toReversed()) as Step;
    expect(sentences([A], [{ ...turned, caution: undefined } as unknown as Step])).toEqual([]);
  });
  it('names the titles of steps that an order points at', () => {
    const names = { steps: { z: 'Far away' }, services: { radon: 'Radon test' } };
    const { differences } = compareRevisions([A, B], [A, { ...B, after: ['a', 'z'], applies: { service: 'radon' } }], names);
    expect(differences[0]?.sentences).toEqual([
      'It applies: when radon test ordered; before, at every property.',
      'Order: after "Step a" and "Far away"; before, free.',
    ]);
  });
  it('marks a reworded instruction word by word', () => {
    expect(changed({ instruction: 'Look at it from both sides.' })).toEqual(['a: The instruction is reworded.']);
    expect(wordMarks('Look at it from one side.', 'Look at it from both sides, twice.')).toEqual([
      { mark: 'same', text: 'Look at it from ' },
      { mark: 'removed', text: 'one side. ' },
      { mark: 'added', text: 'both sides, twice. ' },
    ]);
  });
});

describe('the attic lesson of the book', () => {
  it('reads as one step replaced by two', () => {
    const attic = PROCEDURES.find(({ key }) => key === 'attic')!;
    const after = revised(attic, ATTIC_STEPS_REVISED).steps;
    const { summary, differences } = compareRevisions(attic.steps, after);
    expect(summary).toBe('Steps: 2 added and 1 removed.');
    expect(differences.find(({ kind }) => kind === 'removed')?.sentences).toEqual([
      'Removed: "Bath fan duct followed to its end" and "Bath fan cap seen outside, flap moves" take its place.',
    ]);
  });
});

// ---------- properties ----------
const keys = fc.uniqueArray(fc.constantFrom(...'abcdefgh'.split('')), { maxLength: 8 });
const text = fc
  .array(fc.constantFrom('look', 'at', 'the', 'roof.', 'twice', '\n'), { minLength: 1, maxLength: 12 })
  .map((words) => words.join(' '));
const edits = fc.record(
  {
    title: text,
    instruction: text,
    caution: text,
    minutes: fc.integer({ min: 1, max: 9 }),
    per: fc.constantFrom('property' as const, 'panel' as const),
    who: fc.constantFrom('either' as const, 'first' as const),
    style: fc.constantFrom('read_then_do' as const, 'do_then_confirm' as const),
  },
  { requiredKeys: [] },
);
const list = fc
  .tuple(keys, fc.array(edits, { minLength: 8, maxLength: 8 }))
  .map(([all, edit]) => all.map((key, at) => aStep(key, edit[at] as Partial<Step>)));

describe('always', () => {
  it('a revision compared with itself has no difference', () => {
    fc.assert(
      fc.property(list, (steps) => {
        expect(compareRevisions(steps, structuredClone(steps))).toEqual({ summary: 'Nothing has changed.', differences: [] });
      }),
    );
  });
  it('every step that came, went or differs is named, and no other but moved ones', () => {
    fc.assert(
      fc.property(list, list, (before, after) => {
        const [old, fresh] = [new Map(before.map((step) => [step.key, step])), new Map(after.map((step) => [step.key, step]))];
        const differ = [...new Set([...old.keys(), ...fresh.keys()])].filter((key) => !sameValue(old.get(key), fresh.get(key)));
        const named = compareRevisions(before, after).differences;
        expect(named.every((one) => one.sentences.length > 0)).toBe(true);
        expect(named.map(({ key }) => key).toSorted()).toEqual([...new Set([...differ, ...movedKeys(before, after)])].toSorted());
      }),
    );
  });
  it('moved steps explain the new order, and no smaller set does', () => {
    const remaining = (steps: readonly Step[], without: ReadonlySet<string>) =>
      steps
        .map(({ key }) => key)
        .filter((key) => !without.has(key))
        .join();
    fc.assert(
      fc.property(
        keys.chain((all) => fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length }))),
        ([was, now]) => {
          const [before, after] = [was.map((key) => aStep(key)), now.map((key) => aStep(key))];
          const moved = movedKeys(before, after);
          expect(remaining(before, moved)).toBe(remaining(after, moved));
          const fewer = subsets(was).filter((some) => some.size < moved.size);
          expect(fewer.every((some) => remaining(before, some) !== remaining(after, some))).toBe(true);
        },
      ),
      { numRuns: 60 },
    );
  });
  it('marks spell both texts', () => {
    fc.assert(
      fc.property(fc.string(), fc.string(), (before, after) => {
        const spelled = (leave: string) =>
          wordMarks(before, after)
            .filter(({ mark }) => mark !== leave)
            .map(({ text: words }) => words)
            .join('');
        expect(spelled('added')).toBe(before === '' ? '' : `${before} `);
        expect(spelled('removed')).toBe(after === '' ? '' : `${after} `);
      }),
    );
  });
});

const subsets = (all: readonly string[]): Set<string>[] =>
  all.reduce<string[][]>((made, key) => [...made, ...made.map((some) => [...some, key])], [[]]).map((some) => new Set(some));
