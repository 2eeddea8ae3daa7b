// Rules of taking in, as tables: mails, days, links, photos, what a client sees, and the advice in danger with its reading grade.
import { describe, expect, it } from 'vitest';
import { adviceFor, adviceNow, DEFAULT_ADVICE, mayApproveAdvice } from '@backsight/domain/callbacks/advice';
import { kindOfMatter, mayAddPhoto, stateForClient } from '@backsight/domain/callbacks/clientReport';
import { decideIntake, type Intake, type IntakeFacts } from '@backsight/domain/callbacks/intake';
import { decideLink, decideUnlink, standsAlone, type Linkable } from '@backsight/domain/callbacks/link';
import { decideJobMove, type JobAhead, type MovingCallback } from '@backsight/domain/callbacks/jobMove';
import { mailKey } from '@backsight/domain/callbacks/mailKey';
import { mayAnswer } from '@backsight/domain/callbacks/state';
import type { Outcome } from '@backsight/domain/shared/outcome';
import { openingWords } from '@backsight/domain/shared/openingWords';
import { readingGrade, syllables } from '@backsight/domain/shared/readingGrade';

const code = (outcome: Outcome<unknown>): string => (outcome.ok ? 'taken' : outcome.code);

const FACTS: IntakeFacts = {
  inspectedOn: '2026-05-12',
  receivedOn: '2026-05-20',
  now: '2026-05-21T15:00:00Z',
  byClient: false,
  advice: adviceNow([]),
  stepKeys: ['trip'],
  signedBy: ['paula'],
  parties: ['paula', 'tom'],
  policies: [],
  onCallPhone: '920-555-0100',
  roles: ['office_manager'],
  today: '2026-05-21',
  earlierOfProperty: [],
};
const SAID: Intake = {
  speaker: 'client',
  kind: 'missed',
  safety: false,
  receivedAt: '2026-05-20T15:00:00Z',
  way: 'mail',
  partyId: 'paula',
};

describe('taking in', () => {
  it.each<[string, Partial<IntakeFacts>, Partial<Intake>, string]>([
    ['a mail that came yesterday', {}, {}, 'taken'],
    ['a mail of tomorrow', {}, { receivedAt: '2026-05-21T15:01:00Z' }, 'mail-not-come-yet'],
    ['a mail from before the inspection', { receivedOn: '2026-05-11' }, {}, 'before-the-inspection'],
    ['a mail about the fee, from before', { receivedOn: '2026-05-11' }, { kind: 'fee' }, 'taken'],
    ['what was told on the phone', { receivedOn: '2026-05-11' }, { way: 'desk' }, 'taken'],
    ['noticed after the mail came', {}, { discoveredOn: '2026-05-21' }, 'noticed-after-received'],
    ['noticed in the future', {}, { discoveredOn: '2026-05-22' }, 'in-the-future'],
    ['noticed before the inspection', {}, { discoveredOn: '2026-05-11' }, 'before-the-inspection'],
    ['nobody has been there', { inspectedOn: null }, {}, 'not-visited-yet'],
    ['somebody of another job', {}, { partyId: 'zoe' }, 'party-of-another-job'],
    ['a client, who has no role', { byClient: true, roles: [] }, { way: 'link' }, 'taken'],
    ['an inspector', { roles: ['inspector'] }, {}, 'kind-not-for-role'],
    [
      'a near-miss of an inspector',
      { roles: ['inspector'] },
      { kind: 'near_miss', way: 'desk', stepKey: 'trip', caughtBy: 'partner' },
      'taken',
    ],
    ['a step of another job', {}, { kind: 'near_miss', stepKey: 'other' }, 'step-not-on-this-job'],
    ['a step of what is no near-miss', {}, { stepKey: 'trip' }, 'step-only-of-near-miss'],
    ['a danger without the mark', {}, { dangers: ['gas'] }, 'danger-without-mark'],
    ['a danger', {}, { safety: true, dangers: ['gas'] }, 'taken'],
  ])('%s', (_, facts, said, answer) => {
    expect(code(decideIntake({ ...FACTS, ...facts }, { ...SAID, ...said }))).toBe(answer);
  });
  it('warns with the words for the danger that was named, and binds only who signed', () => {
    const taken = decideIntake(FACTS, { ...SAID, safety: true, dangers: ['gas'] });
    expect(taken).toMatchObject({ ok: true, value: { binding: true } });
    const words = taken.ok ? taken.warnings.find((one) => one.code === 'safety')!.text : '';
    expect(words).toContain(DEFAULT_ADVICE.gas);
    expect(words).not.toContain('breaker');
    expect(decideIntake(FACTS, { ...SAID, partyId: 'tom' })).toMatchObject({ value: { binding: false } });
  });
});

describe('a mail is known again', () => {
  const mail = { sender: 'Paula@Test.example', cameAt: '2026-05-20T10:00:00-05:00', reference: '<abc.1@mail.example>' };
  // msg-id of RFC 5322, 3.6.4: unique, whoever names it, with or without its brackets.
  it.each<[string, Partial<typeof mail>, Partial<typeof mail>, boolean]>([
    ['by its message reference', {}, { sender: 'other@test.example', reference: ' abc.1@mail.example ' }, true],
    ['not by another reference', {}, { reference: '<abc.2@mail.example>' }, false],
    [
      'by sender, minute and subject',
      { reference: 'Freezer' },
      { reference: 'RE: freezer', sender: 'paula@test.example', cameAt: '2026-05-20T15:00:30Z' },
      true,
    ],
    ['not by a subject of another day', { reference: 'Freezer' }, { reference: 'Freezer', cameAt: '2026-05-21T15:00:00Z' }, false],
    ['not by a subject of somebody else', { reference: 'Freezer' }, { reference: 'Freezer', sender: 'tom@test.example' }, false],
  ])('%s', (_, one, other, same) => {
    expect(mailKey({ ...mail, ...one }) === mailKey({ ...mail, ...other })).toBe(same);
  });
});

describe('links', () => {
  const base: Linkable = {
    ...{ id: 'b', number: 2, kind: 'missed', state: 'received', propertyId: 'p', ownerOnly: false, safety: false },
    ...{ duplicateOf: null, repeatOf: null, hasDuplicates: false },
  };
  const first: Linkable = { ...base, id: 'a', number: 1, state: 'looking_into' };
  it.each<[string, Partial<Linkable>, Partial<Linkable>, 'duplicate' | 'repeat', boolean, string]>([
    ['the same', {}, {}, 'duplicate', false, 'closed'],
    ['came back', {}, { state: 'closed' }, 'repeat', false, 'received'],
    ['itself', { id: 'a' }, {}, 'duplicate', false, 'link-of-another-property'],
    ['another house', { propertyId: 'q' }, {}, 'repeat', false, 'link-of-another-property'],
    ['a near-miss', { kind: 'near_miss' }, {}, 'duplicate', false, 'near-miss-not-linked'],
    ['linked before', { repeatOf: 'x' }, {}, 'duplicate', false, 'linked-already'],
    ['to a duplicate', {}, { duplicateOf: 'x' }, 'repeat', false, 'duplicate-of-a-duplicate'],
    ['having duplicates', { hasDuplicates: true }, {}, 'duplicate', false, 'duplicate-of-a-duplicate'],
    ['to what is closed', {}, { state: 'closed' }, 'duplicate', false, 'duplicate-of-closed'],
    ['decided already', { state: 'concluded' }, {}, 'duplicate', false, 'duplicate-decided'],
    ['with money', {}, {}, 'duplicate', true, 'duplicate-decided'],
    ['for the owner alone', { ownerOnly: true }, {}, 'duplicate', false, 'duplicate-owner-only'],
  ])('%s', (_, later, to, link, decided, answer) => {
    const done = decideLink({ ...base, ...later }, { ...first, ...to }, { link, decided });
    expect(done.ok ? done.value.state : done.code).toBe(answer);
  });
  it('carries danger over to the first one, and is taken back as it was', () => {
    expect(decideLink({ ...base, safety: true }, first, { link: 'duplicate', decided: false })).toMatchObject({ value: { alarms: true } });
    expect(decideUnlink({ ...base, state: 'closed', duplicateOf: 'a' }, 'acknowledged')).toMatchObject({ value: 'acknowledged' });
    expect(decideUnlink({ ...base, state: 'concluded', repeatOf: 'a' }, 'received')).toMatchObject({ value: 'concluded' });
    expect(code(decideUnlink(base, 'received'))).toBe('not-linked');
    expect([code(standsAlone({ duplicateOfId: 'a' })), code(standsAlone({ duplicateOfId: null }))]).toEqual([
      'duplicate-stays-closed',
      'taken',
    ]);
  });
});

describe('what a client reports', () => {
  it('is taken in as its kind; who was hurt is for the owner alone', () => {
    expect(kindOfMatter('damaged')).toEqual({ kind: 'damage_or_injury', ownerOnly: false });
    expect(kindOfMatter('hurt')).toEqual({ kind: 'damage_or_injury', ownerOnly: true });
  });
  it.each([
    ['missed', 'received', 'received'],
    ['missed', 'acknowledged', 'received'],
    ['missed', 'looking_into', 'being looked into'],
    ['missed', 'concluded', 'being looked into'],
    ['missed', 'remedy_agreed', 'decided'],
    ['missed', 'closed', 'closed'],
    ['question', 'closed', 'answered'],
  ] as const)('%s, %s reads: %s', (kind, state, words) => expect(stateForClient(kind, state)).toBe(words));
  it('holds twelve photos of a client while it is open, and forty with those of the office', () => {
    const add = (count: number, byClient: boolean, state: 'received' | 'closed' = 'received') =>
      code(mayAddPhoto({ state, count, byClient }));
    expect([add(11, true), add(12, true), add(12, false), add(40, false)]).toEqual([
      'taken',
      'callback-photos-full',
      'taken',
      'callback-photos-full',
    ]);
    expect([add(0, true, 'closed'), add(0, false, 'closed')]).toEqual(['callback-photo-closed', 'taken']);
  });
  it('answers only an open question', () => {
    const answer = (kind: 'question' | 'missed', state: 'received' | 'closed') => code(mayAnswer({ kind, state }));
    expect([answer('question', 'received'), answer('question', 'closed'), answer('missed', 'received')]).toEqual([
      'taken',
      'question-only',
      'question-only',
    ]);
  });
});

describe('the advice in danger', () => {
  it('counts as not approved until an owner approves it, and then the newest counts', () => {
    expect(adviceNow([]).every(({ approved }) => approved === null)).toBe(true);
    const old = {
      danger: 'gas' as const,
      words: 'Get out and call from outside.',
      approvedBy: 'Olive',
      approvedAt: '2026-01-01T00:00:00.000Z',
    };
    const now = adviceNow([old, { ...old, words: 'Leave. Call 911 from outside.', approvedAt: '2026-02-01T00:00:00.000Z' }]);
    expect(now.find(({ danger }) => danger === 'gas')).toMatchObject({ words: 'Leave. Call 911 from outside.', approved: { by: 'Olive' } });
    expect(adviceFor(now, ['gas'])).toBe('Leave. Call 911 from outside.');
    expect(adviceFor(now, [])).toContain('breaker');
  });
  // Utilities' and fire services' usual words (common practice): dry and safe at the breaker, no switch and a call from outside, fresh air and 911.
  it.each([
    ['electric', /only if you can reach it dry and safely/],
    ['gas', /Leave.*any switch.*From outside/],
    ['carbon_monoxide', /fresh air.*911/],
  ] as const)('for %s says what it must', (danger, must) => expect(DEFAULT_ADVICE[danger]).toMatch(must));
  it('reads at grade 6 or below by the Flesch-Kincaid formula', () => {
    for (const { grade, danger } of adviceNow([])) expect(grade, danger).toBeLessThanOrEqual(6);
    expect(mayApproveAdvice('short')).toMatchObject({ ok: false, code: 'advice-length' });
    expect(mayApproveAdvice('Evacuate the residence immediately, notwithstanding uncertainty regarding concentration.')).toMatchObject({
      ok: true,
      warnings: [{ code: 'advice-hard-to-read' }],
    });
  });
  // Worked by hand from the formula of Research Branch Report 8-75 (1975): 13 words, 24 syllables, 1 sentence: 0.39 x 13 + 11.8 x 24 / 13 - 15.59
  // = 11.26; 6 words of 1 syllable: 0.39 x 6 + 11.8 - 15.59 = -1.45.
  it('computes the grade', () => {
    expect(readingGrade('The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.')).toBe(11.3);
    expect(readingGrade('The cat sat on the mat.')).toBe(-1.4);
    expect(readingGrade('')).toBe(0);
    expect(['ladder', 'table', 'breaker', 'outside', 'touched', 'houses', 'it'].map(syllables)).toEqual([2, 2, 2, 2, 1, 2, 1]);
  });
});

it('says the hours of an office in words', () => {
  const day = { start: 480, end: 1020 };
  expect(openingWords({ 1: day, 2: day, 3: day, 4: day, 5: day, 6: { start: 540, end: 720 }, 7: null })).toBe(
    'Monday to Friday 8:00 AM to 5:00 PM; Saturday 9:00 AM to 12:00 PM',
  );
});

describe('the wrong job', () => {
  const CALLBACK: MovingCallback = {
    ...{ kind: 'missed', jobId: 'wrong', jobNumber: 1001, propertyId: 'alder', partyId: 'paula', duplicateOf: null, linked: false },
    ...{ discoveredOn: '2026-05-19', servedOn: null, caughtAt: null, hangs: [], insurerTold: false },
  };
  const JOB: JobAhead = {
    ...{ id: 'right', number: 1002, propertyId: 'birch', inspectedOn: '2026-05-12' },
    ...{ parties: ['paula'], signedBy: ['paula'], stepKeys: ['trip'] },
  };
  it.each<[string, Partial<MovingCallback>, Partial<JobAhead>, string]>([
    ['another property', {}, {}, 'taken'],
    ['the same property', { linked: true }, { propertyId: 'alder' }, 'taken'],
    ['the job that it has', {}, { id: 'wrong' }, 'job-unchanged'],
    ['what is the same as an earlier one', { duplicateOf: 'first' }, {}, 'duplicate-stays-closed'],
    ['concluded', { hangs: ['a conclusion'] }, {}, 'job-move-decided'],
    ['linked, to another property', { linked: true }, {}, 'job-move-linked'],
    ['nobody was there', {}, { inspectedOn: null }, 'not-visited-yet'],
    ['nobody was there, about the fee', { kind: 'fee' }, { inspectedOn: null }, 'taken'],
    ['noticed before that inspection', {}, { inspectedOn: '2026-05-20' }, 'before-the-inspection'],
    ['served before that inspection', { discoveredOn: null, servedOn: '2026-05-11' }, {}, 'before-the-inspection'],
    ['a near-miss at a step of both', { kind: 'near_miss', caughtAt: 'trip' }, {}, 'taken'],
    ['a near-miss at a step that the other had not', { kind: 'near_miss', caughtAt: 'attic' }, {}, 'step-not-on-this-job'],
  ])('moves or says why not: %s', (_, callback, job, expected) => {
    expect(code(decideJobMove({ ...CALLBACK, ...callback }, { ...JOB, ...job }))).toBe(expected);
  });
  it('binds by the new agreement, and says whom the change leaves behind', () => {
    expect(decideJobMove(CALLBACK, JOB)).toMatchObject({ value: { binding: true }, warnings: [] });
    expect(decideJobMove({ ...CALLBACK, insurerTold: true }, { ...JOB, parties: [], signedBy: [] })).toMatchObject({
      value: { binding: false },
      warnings: [{ code: 'speaker-not-on-job' }, { code: 'insurer-knows-other-job' }],
    });
  });
});
