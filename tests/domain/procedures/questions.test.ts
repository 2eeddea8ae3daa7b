// Questions of a revision: what may be asked, how answers are marked, which are still open.
import { describe, expect, it } from 'vitest';
import { draftProblems } from '@backsight/domain/procedures/draftProblems';
import { mark, nothingPersonalInQuestions, questionProblems, stillOpen, type Question } from '@backsight/domain/procedures/questions';
import { aStep } from './aStep.ts';

const yesNo = [
  { key: 'yes', label: 'yes' },
  { key: 'no', label: 'no' },
];
const question: Question = { key: 'reset', stepKey: 'trip', text: 'Is a click of the button enough?', options: yesNo, right: 'no' };
const second: Question = { ...question, key: 'count', text: 'Must both counts be equal?', right: 'yes' };
const steps = [aStep('trip')];

describe('a question', () => {
  it.each<[string, Partial<Question>, string | null]>([
    ['sound', {}, null],
    ['about no step of the revision', { stepKey: 'other' }, 'not in this revision'],
    ['with one answer', { options: yesNo.slice(0, 1), right: 'yes' }, 'at least two'],
    ['without a right answer', { right: 'maybe' }, 'which answer is right'],
    ['that asks nothing', { text: ' ' }, 'asks nothing'],
    ['with a blank answer', { options: [...yesNo, { key: 'c', label: ' ' }] }, 'without words'],
  ])('%s', (_name, change, problem) => {
    const found = questionProblems([{ ...question, ...change }], steps);
    if (problem === null) expect(found).toEqual([]);
    else expect(found.join()).toContain(problem);
  });
  it("tells no client's story", () => {
    expect(nothingPersonalInQuestions([{ ...question, text: 'Why did it cost $900?' }])).toMatchObject({
      ok: false,
      field: 'questions.0.text',
    });
    expect(nothingPersonalInQuestions([question]).ok).toBe(true);
  });
  it('stands in the way of approval while it is unsound; a revision that retires needs no steps', () => {
    const draft = { base: steps, steps, questions: [{ ...question, right: 'maybe' }], retires: false, elsewhere: [] };
    expect(draftProblems(draft)).toHaveLength(1);
    expect(draftProblems({ ...draft, questions: [question] })).toEqual([]);
    expect(draftProblems({ ...draft, steps: [], questions: [] })).toEqual(['It has no steps.']);
    expect(draftProblems({ ...draft, steps: [], questions: [], retires: true })).toEqual([]);
    const waits = aStep('later', { after: ['trip'] });
    expect(draftProblems({ ...draft, steps: [], questions: [], retires: true, elsewhere: [waits] }).join()).toContain('waits for "trip"');
  });
});

describe('answers', () => {
  const both = [question, second];
  it.each([
    ['one missing', [{ question: 'reset', option: 'no' }], 'question-unanswered'],
    [
      'one twice',
      [
        { question: 'reset', option: 'no' },
        { question: 'reset', option: 'yes' },
        { question: 'count', option: 'yes' },
      ],
      'question-unanswered',
    ],
    [
      'not to choose from',
      [
        { question: 'reset', option: 'both' },
        { question: 'count', option: 'yes' },
      ],
      'question-other-answer',
    ],
    [
      'to another question',
      [
        { question: 'reset', option: 'no' },
        { question: 'count', option: 'yes' },
        { question: 'x', option: 'yes' },
      ],
      'question-other-answer',
    ],
  ])('are refused: %s', (_name, answers, code) => expect(mark(both, answers)).toMatchObject({ ok: false, code }));
  it('are marked, and the newest counts', () => {
    const first = mark(both, [
      { question: 'reset', option: 'yes' },
      { question: 'count', option: 'yes' },
    ]);
    expect(first).toMatchObject({
      ok: true,
      value: [
        { question: 'reset', correct: false },
        { question: 'count', correct: true },
      ],
    });
    const marked = first.ok ? first.value : [];
    expect(stillOpen(both, marked)).toEqual([question]);
    expect(stillOpen(both, [...marked, { question: 'reset', option: 'no', correct: true }])).toEqual([]);
    expect(stillOpen(both, [])).toEqual(both);
    expect(stillOpen([], [])).toEqual([]);
  });
});
