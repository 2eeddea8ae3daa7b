// The life of a revision: what may be drafted, edited, approved, withdrawn and acknowledged, and what is refused.
import { describe, expect, it } from 'vitest';
import { editSteps, type KnownKey } from '@backsight/domain/procedures/editSteps';
import { impactOf, type PastJob } from '@backsight/domain/procedures/impact';
import { nothingPersonal } from '@backsight/domain/procedures/personal';
import {
  acknowledge,
  approve,
  draft,
  withdraw,
  type ApproveCommand,
  type ApproveFacts,
  type Revision,
} from '@backsight/domain/procedures/revise';
import { stepsSchema } from '@backsight/domain/procedures/stored';
import type { BusinessCalendar } from '@backsight/domain/shared/calendar';
import { PROCEDURES } from '../../../prisma/seed/procedures/book.ts';
import { aStep } from './aStep.ts';

const OPEN = { start: 480, end: 1020 };
const calendar: BusinessCalendar = {
  zone: 'America/Chicago',
  hours: { 1: OPEN, 2: OPEN, 3: OPEN, 4: OPEN, 5: OPEN, 6: null, 7: null },
  closedDays: ['2026-05-25'],
};
/** A Tuesday at 10 in Wisconsin. */
const NOW = '2026-05-12T15:00:00.000Z';
const revision: Revision = { id: 'r2', number: 2, state: 'draft', authorId: 'lead', basedOnId: 'r1', inForceFrom: null };
const newest = { id: 'r1', number: 1, inForceFrom: '2026-01-02T15:00:00.000Z' };
const facts: ApproveFacts = { revision, newest, problems: [], changesSomething: true, now: NOW, graceDays: 2, calendar };
const command: ApproveCommand = {
  approverId: 'other',
  roles: ['lead_inspector'],
  inForceFrom: null,
  acknowledgeBy: null,
  graceReason: null,
};
const codeOf = (outcome: { ok: boolean; code?: string }) => (outcome.ok ? 'ok' : outcome.code);

describe('approving', () => {
  it('puts it in force now, with two working days to acknowledge, until closing time of the second', () => {
    expect(approve(facts, command)).toMatchObject({
      ok: true,
      value: { inForceFrom: NOW, acknowledgeBy: '2026-05-14T22:00:00.000Z', shortened: false },
    });
  });
  it('counts neither the weekend nor a closed day', () => {
    expect(approve(facts, { ...command, inForceFrom: '2026-05-22T14:00:00Z' })).toMatchObject({
      value: { acknowledgeBy: '2026-05-27T22:00:00.000Z' },
    });
  });
  it('gives the longer grace that the firm has set, never a shorter one than two days', () => {
    expect(approve({ ...facts, graceDays: 5 }, command)).toMatchObject({ value: { acknowledgeBy: '2026-05-19T22:00:00.000Z' } });
    expect(approve({ ...facts, graceDays: 0 }, command)).toMatchObject({ value: { acknowledgeBy: '2026-05-14T22:00:00.000Z' } });
  });
  it.each<[string, Partial<ApproveFacts>, Partial<ApproveCommand>, string]>([
    ['the author', {}, { approverId: 'lead' }, 'approver-is-author'],
    ['an owner who wrote it', {}, { approverId: 'lead', roles: ['owner'] }, 'approver-is-author'],
    ['an inspector', {}, { roles: ['inspector'] }, 'not-allowed'],
    ['an approved one', { revision: { ...revision, state: 'approved' } }, {}, 'revision-not-a-draft'],
    ['a draft of an older revision', { newest: { ...newest, id: 'r9' } }, {}, 'revision-outdated'],
    ['open problems', { problems: ['Step "a": it has no title.'] }, {}, 'revision-problems'],
    ['no change', { changesSomething: false }, {}, 'revision-changes-nothing'],
    ['the past', {}, { inForceFrom: '2026-05-12T14:59:59Z' }, 'in-force-past'],
    [
      'before a revision to come',
      { newest: { ...newest, inForceFrom: '2026-06-01T05:00:00Z' } },
      { inForceFrom: '2026-05-30T05:00:00Z' },
      'in-force-before-newest',
    ],
    [
      'at the same instant as a revision to come',
      { newest: { ...newest, inForceFrom: '2026-06-01T05:00:00Z' } },
      { inForceFrom: '2026-06-01T05:00:00Z' },
      'in-force-before-newest',
    ],
    ['too short a grace', {}, { acknowledgeBy: '2026-05-14T21:59:00Z' }, 'grace-too-short'],
    ['too short a grace, with a reason but no owner', {}, { acknowledgeBy: NOW, graceReason: 'danger' }, 'grace-too-short'],
    ['an owner without a reason', {}, { roles: ['owner'], acknowledgeBy: NOW, graceReason: ' ' }, 'grace-reason-missing'],
    [
      'even an owner: before it is in force',
      {},
      { roles: ['owner'], acknowledgeBy: '2026-05-12T14:00:00Z', graceReason: 'danger' },
      'grace-before-in-force',
    ],
  ])('refuses %s', (_name, f, c, code) => expect(codeOf(approve({ ...facts, ...f }, { ...command, ...c }))).toBe(code));
  it.each<[string, Partial<ApproveFacts>, Partial<ApproveCommand>]>([
    ['a first revision', { newest: null, revision: { ...revision, basedOnId: null } }, {}],
    ['later', {}, { inForceFrom: '2026-06-01T05:00:00Z' }],
    ['exactly the shortest grace', {}, { acknowledgeBy: '2026-05-14T22:00:00Z' }],
    ['longer', {}, { acknowledgeBy: '2026-06-30T22:00:00Z' }],
    ['none at all, by an owner with a reason', {}, { roles: ['owner'], acknowledgeBy: NOW, graceReason: 'People could be hurt.' }],
  ])('takes %s', (_name, f, c) => expect(codeOf(approve({ ...facts, ...f }, { ...command, ...c }))).toBe('ok'));
});

describe('drafting, withdrawing, acknowledging', () => {
  it('numbers a draft after the highest', () =>
    expect(draft({ drafts: [], highestNumber: 4, newest: null }, { reason: 'Clearer words.', retires: false })).toMatchObject({
      ok: true,
      value: 5,
    }));
  it('refuses a second draft', () =>
    expect(codeOf(draft({ drafts: [{ number: 3 }], highestNumber: 3, newest: null }, { reason: 'x', retires: false }))).toBe(
      'draft-exists',
    ));
  it.each([
    ['one in the book', { retires: false }, 'ok'],
    ['one that never was in force', null, 'nothing-to-retire'],
    ['one that is retired', { retires: true }, 'nothing-to-retire'],
  ])('retiring %s', (_name, newest, code) =>
    expect(codeOf(draft({ drafts: [], highestNumber: 1, newest }, { reason: 'Nobody heats with it any more.', retires: true }))).toBe(code),
  );
  it.each<[string, Partial<Revision>, string | null, string]>([
    ['not in force yet', { inForceFrom: '2026-05-13T05:00:00Z' }, 'r2', 'ok'],
    ['in force since now', { inForceFrom: NOW }, 'r2', 'revision-in-force'],
    ['a draft', { state: 'draft' }, 'r2', 'revision-not-approved'],
    ['withdrawn', { state: 'withdrawn', inForceFrom: '2026-05-13T05:00:00Z' }, 'r2', 'revision-not-approved'],
    ['followed by another', { inForceFrom: '2026-05-13T05:00:00Z' }, 'r3', 'revision-followed'],
  ])('withdrawing one that is %s', (_name, change, newestId, code) => {
    const after = newestId === null ? null : { id: newestId, number: 3, inForceFrom: '2026-06-01T05:00:00Z' };
    expect(codeOf(withdraw({ revision: { ...revision, state: 'approved', ...change }, newest: after, now: NOW }))).toBe(code);
  });
  it.each<[string, Partial<Revision>, boolean, string, string]>([
    ['an approved one', { state: 'approved' }, false, NOW, 'ok'],
    ['a draft', { state: 'draft' }, false, NOW, 'revision-not-approved'],
    ['a withdrawn one', { state: 'withdrawn' }, false, NOW, 'revision-not-approved'],
    ['twice', { state: 'approved' }, true, NOW, 'already-acknowledged'],
    ['in the future', { state: 'approved' }, false, '2026-05-12T15:00:01Z', 'acknowledged-in-future'],
  ])('acknowledging %s', (_name, change, already, happenedAt, code) => {
    expect(
      codeOf(acknowledge({ revision: { ...revision, ...change }, already, openQuestions: 0, now: NOW }, { happenedAt, where: 'ahead' })),
    ).toBe(code);
  });
  it.each([
    ['ahead', 1, 'questions-first'],
    ['ahead', 0, 'ok'],
    ['at_the_start', 1, 'ok'],
  ] as const)('acknowledging %s with %i open questions', (where, openQuestions, code) =>
    expect(
      codeOf(
        acknowledge({ revision: { ...revision, state: 'approved' }, already: false, openQuestions, now: NOW }, { happenedAt: NOW, where }),
      ),
    ).toBe(code),
  );
});

describe('texts that go to every phone', () => {
  it.each([
    ['The repair cost $400.', 'an amount of money'],
    ['paid 1,200 dollars', 'an amount of money'],
    ['Write to ann@mail.example', 'an e-mail address'],
    ['Call 920-555-0142', 'a phone number'],
    ['at 12 Lake View Road the fan', 'a street address'],
  ])('refuses: %s', (text, what) =>
    expect(nothingPersonal(text, 'reason')).toMatchObject({ ok: false, code: 'revision-looks-personal', about: { what }, field: 'reason' }),
  );
  it.each(['Two ducts ended in the attic.', 'Expected 14 to 22 F at 120 V.', 'Call 911 and leave.', '1/150 of 1,800 sq ft'])(
    'lets pass: %s',
    (text) => expect(nothingPersonal(text, 'reason').ok).toBe(true),
  );
  it('the whole book passes', () => {
    const texts = PROCEDURES.flatMap(({ steps }) => steps).flatMap(({ title, instruction, why, caution }) => [
      title,
      instruction,
      why,
      caution ?? '',
    ]);
    expect(texts.filter((text) => !nothingPersonal(text, '').ok)).toEqual([]);
  });
});

describe('keys in a draft', () => {
  const known = (key: string, more: Partial<KnownKey> = {}): KnownKey => ({
    key,
    procedureId: 'p',
    derivedFrom: null,
    last: aStep(key),
    ...more,
  });
  const edit = (all: KnownKey[], ...steps: Parameters<typeof editSteps>[1][number][]) => editSteps({ procedureId: 'p', known: all }, steps);
  it('names only keys that are new', () => {
    expect(edit([known('a')], aStep('a'), aStep('b', { derivedFrom: 'a' }))).toMatchObject({
      ok: true,
      value: [{ key: 'b', procedureId: 'p', derivedFrom: 'a' }],
    });
  });
  it('lets wording, range, order and rule of a known key change', () => {
    expect(
      codeOf(
        edit(
          [known('a')],
          aStep('a', { title: 'New', instruction: 'New', minutes: 9, applies: { service: 'x' }, after: ['z'], who: 'first' }),
        ),
      ),
    ).toBe('ok');
  });
  it.each<[string, KnownKey[], Parameters<typeof editSteps>[1], string, string]>([
    ['the same key twice', [], [aStep('a'), aStep('a')], 'step-key-twice', 'steps.1.key'],
    ['a key of another procedure', [known('a', { procedureId: 'q' })], [aStep('a')], 'step-key-elsewhere', 'steps.0.key'],
    ['another origin', [known('a', { derivedFrom: 'z' })], [aStep('a')], 'step-origin-fixed', 'steps.0.derivedFrom'],
    ['an unknown origin', [], [aStep('a', { derivedFrom: 'z' })], 'step-origin-unknown', 'steps.0.derivedFrom'],
    ['itself as origin', [], [aStep('a', { derivedFrom: 'a' })], 'step-origin-unknown', 'steps.0.derivedFrom'],
    [
      'origins in a circle',
      [],
      [aStep('a', { derivedFrom: 'b' }), aStep('b', { derivedFrom: 'a' })],
      'step-origin-unknown',
      'steps.0.derivedFrom',
    ],
    [
      'another kind of evidence',
      [known('a')],
      [aStep('a', { evidence: { kind: 'note', prompt: 'what' } })],
      'step-new-meaning',
      'steps.0.key',
    ],
    ['done for other things', [known('a')], [aStep('a', { per: 'panel' })], 'step-new-meaning', 'steps.0.key'],
    ['a client in its words', [], [aStep('a', { why: 'It cost $900.' })], 'revision-looks-personal', 'steps.0.why'],
  ])('refuses %s', (_name, all, steps, code, field) =>
    expect(editSteps({ procedureId: 'p', known: all }, steps)).toMatchObject({ ok: false, code, field }),
  );
});

describe('impact on past jobs', () => {
  const job = (yearBuilt: number | undefined, panels = 1): PastJob => ({
    context: { facts: yearBuilt === undefined ? {} : { yearBuilt }, services: [], day: '2026-03-02' },
    items: { panel: panels },
  });
  const old = aStep('a', { minutes: 2 });
  const fresh = aStep('b', { minutes: 3, per: 'panel', applies: { fact: 'yearBuilt', compare: 'below', value: 1978 } });
  it('counts jobs where a new step applies, an unknown year among them, and spreads the minutes over all', () => {
    expect(impactOf([old], [old, fresh], [job(1950, 2), job(1990), job(undefined), job(2001)])).toEqual({
      jobs: 4,
      jobsTouched: 2,
      minutesPerJob: 2.3,
      steps: [{ key: 'b', title: 'Step b', jobs: 2 }],
    }); // (2 x 3 + 1 x 3) / 4 = 2.25
  });
  it('says when a draft saves time', () =>
    expect(impactOf([old, aStep('c')], [old], [job(1950)])).toMatchObject({ jobsTouched: 0, minutesPerJob: -2 }));
  it('claims nothing without jobs', () =>
    expect(impactOf([old], [old, fresh], [])).toMatchObject({ jobs: 0, jobsTouched: 0, minutesPerJob: null }));
  it('stays quiet about steps that did not change', () => expect(impactOf([old], [old], [job(1950)]).steps).toEqual([]));
});

describe('the stored shape', () => {
  it('takes every step of the book as it is', () => {
    for (const { steps } of PROCEDURES)
      expect(stepsSchema.parse(JSON.parse(JSON.stringify(steps)))).toEqual(JSON.parse(JSON.stringify(steps)));
  });
  it.each<[string, object]>([
    ['a key with blanks', { key: 'A b' }],
    ['an unknown member', { color: 'red' }],
    ['no title', { title: ' ' }],
    ['a title of two lines', { title: 'a\nb' }],
    ['an unknown item', { per: 'roof' }],
    ['a rule over an unknown fact', { applies: { fact: 'mood', compare: 'is', value: 1 } }],
    ['minutes as text', { minutes: '2' }],
    ['a day of minutes', { minutes: 1440 }],
    ['an unknown kind of evidence', { evidence: { kind: 'smell' } }],
    ['a basis without kind', { basis: {} }],
    ['an endless instruction', { instruction: 'x'.repeat(2001) }],
  ])('refuses %s', (_name, change) => expect(stepsSchema.safeParse([{ ...aStep('a'), ...change }]).success).toBe(false));
});
