// What clients read, pages and mails and letters, is in plain language: about the eighth school year, the paper to be signed aside.
import { describe, expect, it } from 'vitest';
import { TEMPLATES } from '@backsight/domain/mail/templates';
import { CLIENT_PAGES } from '../support/clientPages.ts';
import { readingGrade, sentencesOf, syllablesOf } from '../support/readingGrade.ts';

const PAPER = [/<article class="paper">.*?<\/article>/gs, /<div class="paper">.*?<\/div>/gs, /<dl>.*?<\/dl>/gs];
const MOST = 8;

describe('the grade', () => {
  // Both from memory, as they are often quoted beside the formula: 13 words with 24 syllables, and a sentence of six short words.
  it.each([
    ['The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.', 24, 11.3],
    ['The cat sat on the mat.', 6, -1.4],
  ])('of %s', (sentence, syllables, grade) => {
    expect(sentence.match(/\w+/g)!.reduce((total, word) => total + syllablesOf(word), 0)).toBe(syllables);
    expect(readingGrade([sentence])).toBeCloseTo(grade, 0);
  });
});

/** Labels are no sentences. */
const longer = (sentence: string): boolean => sentence.split(' ').length > 4;

it.each(Object.entries(CLIENT_PAGES))('the page %s reads at grade 8 or below', (_, page) => {
  const sentences = sentencesOf(page, PAPER).filter(longer);
  const hard = sentences.toSorted((a, b) => readingGrade([b]) - readingGrade([a])).slice(0, 6);
  expect(readingGrade(sentences), hard.join('\n')).toBeLessThanOrEqual(MOST);
});

/** Fields that stand inside a sentence; the others are sentences of their own, or a link. */
const INSIDE: Record<string, string> = {
  ...{ address: '12 Shore Road', firm_phone: '555-0100', job: '12', number: '12', invoice: '12', paper: 'agreement', method: 'card' },
  ...{
    appointment: 'May 12',
    before: 'May 11',
    booked: '9:00',
    expected: '9:30',
    placed_at: 'May 12',
    close_from: 'May 11',
    until: 'May 20',
  },
  ...{ hours: '12', shortest_hours: '48', closed: 'May 12', received: 'May 12', amount: '$100', open: '$100', what: 'inspection' },
  ...{ policies: 'general liability', look_at: 'the heater' },
};

it.each(Object.entries(TEMPLATES))('the mail or letter %s reads at grade 8 or below', (_, { body }) => {
  const filled = body.replaceAll(/\{\{(\w+)\}\}/g, (_field, name: string) => INSIDE[name] ?? '\n\n');
  const sentences = filled.split(/[.!?]+\s|\n\s*\n/).filter(longer);
  const hard = sentences.toSorted((a, b) => readingGrade([b]) - readingGrade([a])).slice(0, 4);
  expect(sentences.length === 0 ? 0 : readingGrade(sentences), hard.join('\n')).toBeLessThanOrEqual(MOST);
});

it('a settlement release is called what it is', () => {
  const words = sentencesOf(CLIENT_PAGES['of a settlement release'], PAPER).join(' ');
  expect(words).not.toMatch(/\bagreement\b/i);
  expect(words).toContain('Sign the settlement release');
});
