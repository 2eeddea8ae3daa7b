// Steps as a table: the whole book goes out and comes back the same; what cannot be taken in is said by line, and nothing else.
import { describe, expect, it } from 'vitest';
import { csvText } from '@backsight/documents/csv';
import { readCsv } from '@backsight/documents/csvRead';
import { judgeImport, readTable, type ImportFacts } from '@backsight/domain/procedures/importSteps';
import { COLUMN_KEYS, COLUMNS, rowOf, ruleOf } from '@backsight/domain/procedures/table';
import { keyFor } from '@backsight/domain/shared/keyFor';
import { PROCEDURES } from '../../../prisma/seed/procedures/book.ts';
import { aStep } from './aStep.ts';

const HEADS = COLUMN_KEYS.map((column) => COLUMNS[column]);
const draft = [aStep('first'), aStep('second', { evidence: { kind: 'count', of: 'windows' } })];
const facts: ImportFacts = {
  procedureId: 'p1',
  draft,
  base: draft,
  elsewhere: [],
  questions: [],
  known: [
    { key: 'first', procedureId: 'p1', derivedFrom: null, last: draft[0]! },
    { key: 'second', procedureId: 'p1', derivedFrom: null, last: draft[1]! },
    { key: 'roof-covering', procedureId: 'p2', derivedFrom: null, last: null },
  ],
};
const take = (text: string) => {
  const { rows } = readCsv(text);
  const { read, problems } = readTable(rows, facts.draft);
  const judged = judgeImport(facts, read);
  return { ...judged, problems: [...problems, ...judged.problems] };
};

it('gives every step of the book back as it was', () => {
  for (const { steps } of PROCEDURES) {
    const { rows } = readCsv(csvText([HEADS, ...steps.map((step) => rowOf(step, 'in words'))]));
    const { read, problems } = readTable(rows, []);
    expect(problems).toEqual([]);
    expect(read.map(({ step }) => step)).toEqual(steps);
  }
});

describe('a table', () => {
  it('adds what is new, changes what has the key, keeps the rest, and makes a key of the title', () => {
    const { taken, steps, problems } = take(
      'key,TITLE,Instruction,Why,Minutes\r\nsecond,Windows,Count them.,They leak.,3\r\n,Attic fan duct,Follow it.,It rots.,',
    );
    expect(problems.filter(({ stops }) => stops).map(({ text }) => text)).toEqual([
      expect.stringContaining('would now mean something else'),
    ]);
    expect(taken.map(({ line, does, step }) => [line, does, step.key])).toEqual([
      [2, 'changes', 'second'],
      [3, 'adds', 'attic-fan-duct'],
    ]);
    expect(steps.map(({ key }) => key)).toEqual(['first', 'second', 'attic-fan-duct']);
  });
  it('has nothing to say about a sound one', () => {
    const { problems, taken } = take(
      'Title,Instruction,Why,Applies when,Record,Record of\nFan,Run it.,Steam.,features includes attic and yearBuilt below 1978,choice,yes = it runs | no = it does not',
    );
    expect(problems).toEqual([]);
    expect(taken[0]!.step).toMatchObject({
      key: 'fan',
      applies: {
        all: [
          { fact: 'features', compare: 'includes', value: 'attic' },
          { fact: 'yearBuilt', compare: 'below', value: 1978 },
        ],
      },
      evidence: {
        kind: 'choice',
        options: [
          { key: 'yes', label: 'it runs' },
          { key: 'no', label: 'it does not' },
        ],
      },
    });
  });
  it.each<[string, string, [number, string | null, string][]]>([
    ['without rows', 'Title,Instruction,Why', [[1, null, 'no rows']]],
    ['empty', '', [[1, null, 'no rows']]],
    [
      'with other columns',
      'Name,What to do\na,b',
      [
        [1, null, 'no column "Name"'],
        [1, null, 'no column "What to do"'],
        [1, 'Title', 'missing'],
        [1, 'Instruction', 'missing'],
        [1, 'Why', 'missing'],
      ],
    ],
    ['with a column twice', 'Title,Title,Instruction,Why\na,b,c,d', [[1, 'Title', 'twice']]],
    [
      'parted by semicolons',
      'Title;Instruction;Why\na;b;c',
      [
        [1, null, 'parted by commas'],
        [1, null, 'no column'],
        [1, 'Title', 'missing'],
        [1, 'Instruction', 'missing'],
        [1, 'Why', 'missing'],
      ],
    ],
    [
      'with too few and too many cells',
      'Title,Instruction,Why\na,b\nc,d,e,f',
      [
        [2, null, '2 cells'],
        [3, null, '4 cells'],
      ],
    ],
    ['with words for figures', 'Title,Instruction,Why,Minutes\na,b,c,many', [[2, 'Minutes', '']]],
    ['with an unknown way of recording', 'Title,Instruction,Why,Record\na,b,c,stars', [[2, 'Record', '']]],
    ['with an unknown thing', 'Title,Instruction,Why,Done for\na,b,c,attic', [[2, 'Done for', '']]],
    ['with an unknown place', 'Title,Instruction,Why,Where\na,b,c,moon', [[2, 'Where', '']]],
    ['with a rule that is none', 'Title,Instruction,Why,Applies when\na,b,c,if there is a full moon', [[2, 'Applies when', '']]],
    ['with a broken rule', 'Title,Instruction,Why,Applies when\na,b,c,"{""fact"":"', [[2, 'Applies when', '']]],
    ['without a reason in one row', 'Title,Instruction,Why\na,b,\nc,d,e', [[2, 'Why', '']]],
    ['with a key twice', 'Key,Title,Instruction,Why\nx,a,b,c\nx,d,e,f', [[3, 'Key', 'line 2 too']]],
    ['with the key of another procedure', 'Key,Title,Instruction,Why\nroof-covering,a,b,c', [[2, null, 'belongs to another procedure']]],
    ["with a client's amount", 'Title,Instruction,Why\na,It cost $900.,c', [[2, null, 'an amount of money']]],
    ['with a key that is none', 'Key,Title,Instruction,Why\nBath Fan,a,b,c', [[2, 'Key', '']]],
  ])('%s', (_name, text, expected) => {
    const stopping = take(text).problems.filter(({ stops }) => stops);
    expect(stopping.map(({ line, column }) => [line, column])).toEqual(expected.map(([line, column]) => [line, column]));
    expected.forEach(([, , words], at) => expect(stopping[at]!.text).toContain(words));
  });
  it('tells apart what only stands in the way of approval', () => {
    const { problems } = take('Title,Instruction,Why,Kit\nEave,Look.,It rots.,ladder');
    expect(problems).toEqual([expect.objectContaining({ line: 2, stops: false, text: expect.stringContaining('carries no caution') })]);
  });
  it('holds at most 200 steps', () => {
    const rows = Array.from({ length: 201 }, (_, at) => `Step ${at},b,c`).join('\n');
    expect(take(`Title,Instruction,Why\n${rows}`).problems).toEqual([expect.objectContaining({ line: 202, stops: true })]);
  });
});

it.each([
  ['', { always: true }],
  ['service radon', { service: 'radon' }],
  ['occupied is vacant', { fact: 'occupied', compare: 'is', value: 'vacant' }],
  ['winterized is yes', { fact: 'winterized', compare: 'is', value: true }],
  ['roofCovering isOneOf slate, tile', { fact: 'roofCovering', compare: 'isOneOf', value: ['slate', 'tile'] }],
  ['{"not":{"service":"radon"}}', { not: { service: 'radon' } }],
  ['moon is full', null],
  ['features includes', null],
])('reads the rule "%s"', (words, rule) => expect(ruleOf(words)).toEqual(rule));

it.each([
  ['Bath fan duct: both ends', [], 'bath-fan-duct-both-ends'],
  ['  3 steps!', [], 'steps'],
  ['Fan', ['fan', 'fan-2'], 'fan-3'],
  ['???', [], 'step'],
])('makes a key of "%s"', (title, taken, key) => expect(keyFor(title, taken)).toBe(key));
