// Short questions that come with a revision: did the reader take in what changed? Answers are kept, wrong ones are shown with the step.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { nothingPersonal } from './personal.ts';
import type { Step } from './step.ts';

export type QuestionOption = { key: string; label: string };
/** `right` is the key of an option; `stepKey` names the step in which the answer stands. */
export type Question = { key: string; stepKey: string; text: string; options: readonly QuestionOption[]; right: string };
export type Answer = { question: string; option: string };

/** Few enough for a phone in a driveway: the firm's own limit. */
export const MOST_QUESTIONS = 5;

/** What stands in the way of approving these questions with these steps, in plain sentences. */
export function questionProblems(questions: readonly Question[], steps: readonly Step[]): string[] {
  const keys = new Set(steps.map(({ key }) => key));
  return questions.flatMap(({ stepKey, text, options, right }, at) => {
    const name = `Question ${at + 1}`;
    return [
      ...(text.trim() === '' ? [`${name} asks nothing.`] : []),
      ...(keys.has(stepKey) ? [] : [`${name} is about a step that is not in this revision.`]),
      ...(options.length < 2 ? [`${name} needs at least two answers to choose from.`] : []),
      ...(options.some(({ label }) => label.trim() === '') ? [`${name} has an answer without words.`] : []),
      ...(options.some(({ key }) => key === right) ? [] : [`${name} does not say which answer is right.`]),
    ];
  });
}

/** Refuses particulars of clients in questions and answers, as in the steps themselves. */
export function nothingPersonalInQuestions(questions: readonly Question[]): Outcome<null> {
  for (const [at, question] of questions.entries()) {
    const clean = nothingPersonal([question.text, ...question.options.map(({ label }) => label)].join(' / '), `questions.${at}.text`);
    if (!clean.ok) return clean;
  }
  return accept(null);
}

export type Marked = Answer & { correct: boolean };

/** Marks the answers to the questions of a revision: each question once, every answer one of its options. */
export function mark(questions: readonly Question[], answers: readonly Answer[]): Outcome<Marked[]> {
  const marked: Marked[] = [];
  for (const { key, options, right } of questions) {
    const given = answers.filter(({ question }) => question === key);
    if (given.length !== 1) return refuse('question-unanswered', {}, 'answers');
    const { option } = given[0]!;
    if (!options.some((one) => one.key === option)) return refuse('question-other-answer', {}, 'answers');
    marked.push({ question: key, option, correct: option === right });
  }
  return answers.length === questions.length ? accept(marked) : refuse('question-other-answer', {}, 'answers');
}

/** The questions to which a person's newest answer is not the right one. `answers` are in the order given. */
export const stillOpen = (questions: readonly Question[], answers: readonly Marked[]): Question[] =>
  questions.filter(({ key }) => answers.findLast(({ question }) => question === key)?.correct !== true);
