// The pages that clients read without an account are in plain language: about the eighth school year, the paper to be signed aside.
import { describe, expect, it } from 'vitest';
import type { ClientPage } from '@backsight/usecases/agreements/clientPage';
import { adviceNow } from '@backsight/domain/callbacks/advice';
import { afterPage } from '../../apps/api/src/http/client/after.ts';
import { agreementPage } from '../../apps/api/src/http/client/agreement.ts';
import { cancelledPage, endedLinkPage, unknownLinkPage } from '../../apps/api/src/http/client/otherPages.ts';
import { processPage } from '../../apps/api/src/http/client/process.ts';
import { reportPage } from '../../apps/api/src/http/client/report.ts';
import { verifyPage } from '../../apps/api/src/http/client/verify.ts';
import { readingGrade, sentencesOf, syllablesOf } from '../support/readingGrade.ts';

const PAPER = [/<article class="paper">.*?<\/article>/gs, /<div class="paper">.*?<\/div>/gs, /<dl>.*?<\/dl>/gs];
const MOST = 8;

const firm = { firm: 'Grebe House', firmPhone: '555-0100', address: '12 Shore Road', name: 'Paula Prior', jobNumber: 12, zone: 'UTC' };
const at = '2026-05-12T14:00:00Z';
const answer: ClientPage['answer'] = null;
const paper: ClientPage = {
  ...{
    ...firm,
    appointment: '',
    fee: '',
    terms: '',
    capacity: 'self',
    authority: '',
    title: 'Paper',
    body: 'Words.',
    consentText: 'Words.',
  },
  ...{ sha256: 'a'.repeat(64), reviewed: true, superseded: true, since: null, answer, wantsPaper: false, signed: null },
  ...{ release: false, sealed: false },
};
const signature = { name: 'Paula Prior', happenedAt: at, method: 'link', interpreter: '', strokes: null, sha256: paper.sha256 };
const signed = { ...paper, signed: signature as unknown as ClientPage['signed'], sealed: true };
const report = {
  ...firm,
  onCallPhone: '555-0101',
  hours: 'Monday to Friday',
  today: '2026-05-12',
  inspectedOn: '2026-05-01',
  advice: adviceNow([]),
};
const told = { number: 4, question: false, state: 'received' as never, receivedAt: at, sameAs: null, answerBy: at };
const once = { typed: null, sent: 4, token: 'x', id: 'y' };
const within = { amount: 2, unit: 'businessDays' };
const after = { ...firm, number: 4, mayAnswer: true, answer: null, appeal: null, appealUntil: '2026-06-01' };

const PAGES: readonly (readonly [string, string])[] = [
  ['to sign', agreementPage(paper, null, 'x')],
  ['signed', agreementPage(signed, null, 'x')],
  ['of a settlement release', agreementPage({ ...paper, release: true }, null, 'x')],
  ['of a link that ended', endedLinkPage(firm, false) + endedLinkPage(firm, true) + unknownLinkPage(firm) + cancelledPage(firm)],
  ['to report a problem', reportPage({ ...report, reports: [told] }, once)],
  ['after a decision', afterPage(after as never, null)],
  [
    'on complaints',
    processPage({
      ...firm,
      phone: '555-0100',
      email: 'a@b.example',
      terms: { acknowledge: within, triage: within, visit: within, decision: within },
      appealDays: 30,
      decideDays: 10,
      checkDays: 60,
    } as never),
  ],
  ['to check a fingerprint', verifyPage('', null)],
];

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

it.each(PAGES)('the page %s reads at grade 8 or below', (_, page) => {
  const sentences = sentencesOf(page, PAPER).filter((sentence) => sentence.split(' ').length > 4); // labels are no sentences
  const hard = sentences.toSorted((a, b) => readingGrade([b]) - readingGrade([a])).slice(0, 6);
  expect(readingGrade(sentences), hard.join('\n')).toBeLessThanOrEqual(MOST);
});

it('a settlement release is called what it is', () => {
  const words = sentencesOf(agreementPage({ ...paper, release: true }, null, 'x'), PAPER).join(' ');
  expect(words).not.toMatch(/\bagreement\b/i);
  expect(words).toContain('Sign the settlement release');
});
