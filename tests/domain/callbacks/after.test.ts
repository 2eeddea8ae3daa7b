// Tag: time.
// Rules of letters and of what follows a callback, as tables: does it, refuses it, stays quiet.
import { describe, expect, it } from 'vitest';
import {
  checkDay,
  decideAppeal,
  decideCheck,
  isCheckedAfter,
  mayAnswer,
  mayAppeal,
  type AppealOn,
  type Decider,
} from '@backsight/domain/callbacks/after';
import {
  amountsIn,
  checkLetter,
  decisionWords,
  opinionsIn,
  type DecidedRemedy,
  type LetterCheck,
} from '@backsight/domain/callbacks/letters';
import { KINDS, type Kind } from '@backsight/domain/callbacks/words';
import { writeLetter } from '@backsight/domain/mail/letter';
import { withoutKeys } from '@backsight/domain/mail/retry';
import { TEMPLATES, type MailKind } from '@backsight/domain/mail/templates';
import { readingGrade } from '@backsight/domain/shared/readingGrade';

const said = (outcome: { ok: true; value: unknown } | { ok: false; code: string }) => (outcome.ok ? 'yes' : outcome.code);
const rules = { checkDays: 30, appealDays: 30, decideDays: 30 };

describe('the check after closing', () => {
  it('comes 30 days later, over the end of a year, and only after what was judged', () => {
    expect(checkDay('2026-12-15', rules)).toBe('2027-01-14');
    const not: Kind[] = ['records_request', 'question', 'near_miss'];
    expect((Object.keys(KINDS) as Kind[]).filter((kind) => !isCheckedAfter(kind))).toEqual(not);
  });
  const open = { open: true, state: 'closed', today: '2026-06-11', id: 'c' } as const;
  it.each([
    [open, { outcome: 'held' }, false],
    [open, { outcome: 'came_back' }, true],
    [{ ...open, state: 'looking_into' }, { outcome: 'came_back' }, false],
    [open, { outcome: 'came_back', repeatId: 'd' }, false],
    [open, { outcome: 'came_back', repeatId: 'c' }, 'repeat-is-itself'],
    [open, { outcome: 'not_reached' }, false],
    [open, { outcome: 'not_reached', againOn: '2026-06-11' }, false],
    [open, { outcome: 'not_reached', againOn: '2026-06-10' }, 'due-day-past'],
    [open, { outcome: 'held', againOn: '2026-06-20' }, 'check-again-only'],
    [{ ...open, open: false }, { outcome: 'held' }, 'check-not-open'],
  ] as const)('%j with %j: %s', (facts, answer, expected) => {
    const outcome = decideCheck(facts, answer);
    expect(outcome.ok ? outcome.value.reopens : outcome.code).toBe(expected);
  });
});

describe('an appeal', () => {
  const on = (more: Partial<AppealOn> = {}): AppealOn => ({
    ...{ kind: 'missed', ownerOnly: false, today: '2026-06-11', toldOn: '2026-05-12', appealedOn: null, appealOpen: false },
    ...more,
  });
  it.each<[Partial<AppealOn>, string]>([
    [{}, 'yes'],
    [{ today: '2026-06-12' }, 'appeal-late'],
    [{ toldOn: null }, 'nothing-to-appeal'],
    [{ kind: 'question' }, 'nothing-to-appeal'],
    [{ kind: 'near_miss' }, 'no-letter-in-this'],
    [{ ownerOnly: true }, 'no-letter-in-this'],
    [{ appealOpen: true, appealedOn: '2026-06-01' }, 'appeal-open'],
    [{ appealedOn: '2026-06-01' }, 'appealed-already'],
    [{ appealedOn: '2026-05-01' }, 'yes'],
  ])('%j: %s', (more, answer) => expect(said(mayAppeal(on(more), rules))).toBe(answer));
  it('is decided within its own days', () => expect(mayAppeal(on(), rules)).toMatchObject({ value: { dueOn: '2026-07-11' } }));

  const [free, bound] = [
    { id: 'f', name: 'Free', involved: false },
    { id: 'b', name: 'Bound', involved: true },
  ];
  it.each<[Decider, Decider[], string, string]>([
    [free, [free, bound], '', 'yes'],
    [bound, [free, bound], 'Somebody', 'appeal-for-other-owner'],
    [bound, [bound], ' ', 'appeal-needs-reviewer'],
    [bound, [bound], 'Rita Retired', 'yes'],
    [free, [free], '', 'yes'],
  ])('decided by %j of %j with reviewer "%s": %s', (by, owners, reviewer, answer) =>
    expect(said(decideAppeal({ open: true, by, owners, state: 'closed' }, { result: 'upheld', reviewer }))).toBe(answer),
  );
  it.each([
    ['changed', 'closed', 'looking_into'],
    ['changed', 'concluded', 'concluded'],
    ['upheld', 'closed', 'closed'],
  ] as const)('that is %s while %s leaves it %s', (result, state, next) =>
    expect(decideAppeal({ open: true, by: free, owners: [free], state }, { result, reviewer: '' })).toMatchObject({
      value: { state: next },
    }),
  );
  it('is decided once', () =>
    expect(said(decideAppeal({ open: false, by: free, owners: [], state: 'closed' }, { result: 'upheld', reviewer: '' }))).toBe(
      'appeal-not-open',
    ));
});

it.each([
  ['closed', '2026-05-12', '2026-06-11', 'yes'],
  ['closed', '2026-05-12', '2026-06-12', 'answer-late'],
  ['concluded', '2026-05-12', '2026-05-13', 'answer-not-yet'],
  ['closed', null, '2026-05-13', 'answer-not-yet'],
] as const)('the client answers about what is %s since %s on %s: %s', (state, closedOn, today, answer) =>
  expect(said(mayAnswer({ state, closedOn, today }))).toBe(answer),
);

describe('a letter', () => {
  const ADMITS_NOTHING = 'We write this without admission of responsibility.';
  const of = (more: Partial<LetterCheck> = {}): LetterCheck => ({
    ...{ letter: 'decision', kind: 'missed', locked: null, isOwner: false, link: true, clearances: [], notOffered: [] },
    ...more,
  });
  const locked = { subject: 'Number {{number}}', body: 'Dear {{name}},\n\nWe admit nothing.\n\n{{decision}}\n\nYours' };
  it.each<[string, Partial<LetterCheck>, string]>([
    [ADMITS_NOTHING, {}, 'yes'],
    [`${ADMITS_NOTHING} {{link}}`, {}, 'yes'],
    [`${ADMITS_NOTHING} {{link}}`, { link: false }, 'letter-unfinished'],
    [`${ADMITS_NOTHING} [reasons]`, {}, 'letter-unfinished'],
    [`${ADMITS_NOTHING} {{name}}`, {}, 'letter-unfinished'],
    ['We come on Friday.', {}, 'letter-without-reservation'],
    ['We come on Friday.', { isOwner: true }, 'yes'],
    ['Your question has an answer.', { kind: 'question' }, 'yes'],
    [`${ADMITS_NOTHING} We offer $1,250.50.`, {}, 'payment-needs-clearance'],
    [`${ADMITS_NOTHING} We offer $1,250.50.`, { clearances: [1] }, 'offer-not-marked'],
    [`${ADMITS_NOTHING} We offer $1,250.50. This is made to settle the matter.`, { clearances: [1] }, 'yes'],
    [`${ADMITS_NOTHING} You ask for $1,250.50.`, { notOffered: [125_050] }, 'yes'],
    [`${ADMITS_NOTHING} We offer $1,250.51.`, { notOffered: [125_050] }, 'payment-needs-clearance'],
    ['Dear A,\n\nWe admit nothing.\n\nWe found nothing.\nYours', { locked }, 'yes'],
    ['Dear A, We admit   nothing. More of ours. Yours', { locked }, 'yes'],
    ['Dear A,\n\nWe admit much.\n\nYours', { locked }, 'letter-locked-words'],
    ['Yours\n\nWe admit nothing.\n\nDear A', { locked, isOwner: true }, 'letter-locked-words'],
  ])('%j with %j: %s', (body, more, answer) => expect(said(checkLetter({ subject: 'Number 7', body }, of(more)))).toBe(answer));

  it('says what was decided from what was approved, marks an offer, and leaves a bracket where the writer must say more', () => {
    const one = (kind: DecidedRemedy['kind'], state: DecidedRemedy['state'], cents = 0): DecidedRemedy => ({
      kind,
      state,
      cents,
      payee: 'Paula',
    });
    expect(decisionWords([])).toMatch(/^\[/);
    expect(decisionWords([one('goodwill_payment', 'proposed', 500), one('fee_refund', 'refused', 500)])).toMatch(/^\[/);
    expect(decisionWords([one('goodwill_payment', 'approved', 12_000)])).toMatch(/^We offer to pay \$120\.00 to Paula\.[^]*made to settle/);
    expect(decisionWords([one('goodwill_payment', 'done', 12_000)])).toBe('We paid $120.00 to Paula.');
    expect(decisionWords([one('declined', 'approved')])).toContain('[reasons]');
    expect(decisionWords([one('insurer_notice', 'done')])).toMatch(/^\[/);
  });
  it.each([
    ['$5', [500]],
    ['$1,234.50 and $0.99', [123_450, 99]],
    ['12 dollars, $x', []],
    ['US$ 40', [4000]],
  ])('names the amounts in %s', (text, cents) => expect(amountsIn(text)).toEqual(cents));
  it('names people and causes that stand in it, whatever the case', () =>
    expect(
      opinionsIn('Anna inspector says it AROSE LATER.', {
        people: ['Anna Inspector', 'Ben'],
        causes: ['arose later', 'out of scope'],
        steps: [],
      }),
    ).toEqual(['Anna Inspector', 'arose later']));
  it('keeps no key of a private link', () => {
    const key = 'a'.repeat(43);
    expect(withoutKeys(`x/client/${key} x/client/after/${key}`)).toBe('x/client/... x/client/after/...');
  });

  // Plain words: grade 8 or below by the Flesch-Kincaid formula (Kincaid et al. 1975); no cause, no step and no fault is named.
  const ABOUT_PROBLEMS = [
    'callback_acknowledgement',
    'question_acknowledgement',
    'callback_access',
    'callback_visit',
    'decision',
    'callback_closing',
    'callback_appeal',
  ] as const;
  it.each<MailKind>(ABOUT_PROBLEMS)('built in as %s reads plainly, opens without admission and gives no opinion', (kind) => {
    const written = writeLetter(kind, null, Object.fromEntries(Object.keys(TEMPLATES[kind].fields).map((name) => [name, `Our ${name}.`])));
    const { body } = written.ok ? written.value : { body: '' };
    expect(readingGrade(body)).toBeLessThanOrEqual(8);
    if (kind !== 'question_acknowledgement') expect(body.split('\n\n')[1]).toBe(ADMITS_NOTHING);
    expect(body).not.toMatch(/fault|sorry|mistake|missed|skipped|step|procedure|liable|negligen/i);
  });
});
