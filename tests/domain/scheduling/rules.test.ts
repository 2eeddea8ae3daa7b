// Each hard rule of a start: it refuses, it lets through, and it stays quiet where it does not apply; search and check agree.
import { describe, expect, it } from 'vitest';
import { checkStart } from '@backsight/scheduling/checkStart';
import { explainDay } from '@backsight/scheduling/explainDay';
import { findStarts } from '@backsight/scheduling/findStarts';
import type { RuleCode } from '@backsight/scheduling/rules';
import type { PersonInput, StartQuery, World } from '@backsight/scheduling/world';
import { MON, NINE, person, PORT_ANSEL, query, TUE, visit, WED, world } from './cast.ts';

type Case = {
  rule: string;
  world: World;
  query?: Partial<StartQuery>;
  /** Codes of `checkStart` for Ann first with Ben at 9:00 AM on Tuesday (or Ann alone). */
  codes: RuleCode[];
  /** Part of a reason of `explainDay`; absent when Tuesday has a start. */
  reason?: string;
};

const ben = (change: Partial<PersonInput>): World => world({ people: [person('ann'), person('ben', change)] });
const radon = { key: 'radon', until: null };
const meter = (count: number, outOfService: { from: string; until?: string; count: number }[] = []) => [
  { kind: 'moisture meter', count, outOfService },
];
const carried = visit('v1', ['cal', 'dot'], 780, 960, { kit: ['moisture meter'] });
const roof = { offsetMinutes: 60 };
const never = { kind: 'never_together', a: 'ben', b: 'ann' } as const;
const tied = (a: string, b: string) => ({ kind: 'must_together', a, b }) as const;
const missing = (afterDay: string) => ({ missingAcknowledgements: [{ revision: 'revision 7', afterDay }] });

const CASES: Case[] = [
  { rule: 'two licensed people who are free go', world: world(), codes: [] },
  {
    rule: 'no license at all',
    world: ben({ licensedUntil: null }),
    codes: ['not-licensed'],
    reason: 'Ben Cole has no license valid on Tue, Jul 14.',
  },
  { rule: 'license ended the day before', world: ben({ licensedUntil: MON }), codes: ['not-licensed'], reason: 'no license' },
  { rule: 'license valid to the day itself', world: ben({ licensedUntil: TUE }), codes: [] },
  { rule: 'license begins the day after', world: ben({ licensedFrom: WED }), codes: ['not-licensed'], reason: 'no license' },
  { rule: 'license begins on the day', world: ben({ licensedFrom: TUE }), codes: [] },
  {
    rule: 'an unlicensed trainee is never counted',
    world: ben({ trainee: true, mayLead: false, licensedUntil: null }),
    codes: ['not-licensed'],
    reason: 'only come along as an observer',
  },
  { rule: 'a licensed trainee goes with somebody who may go first', world: ben({ trainee: true, mayLead: false }), codes: [] },
  {
    rule: 'two trainees',
    world: world({ people: ['ann', 'ben'].map((id) => person(id, { trainee: true })) }),
    codes: ['crew'],
    reason: 'Nobody who may go first is free.',
  },
  {
    rule: 'neither may go first',
    world: world({ people: ['ann', 'ben'].map((id) => person(id, { mayLead: false })) }),
    codes: ['crew'],
    reason: 'Nobody who may go first is free.',
  },
  { rule: 'one of the two may go first', world: ben({ mayLead: false }), codes: [] },
  {
    rule: 'each needs the qualification, one lacks it',
    world: ben({}),
    query: { needEach: ['ladders'] },
    codes: ['not-qualified', 'not-qualified'],
    reason: 'Nobody free holds all that the job needs: ladders.',
  },
  {
    rule: 'each holds the qualification',
    world: world({ people: ['ann', 'ben'].map((id) => person(id, { qualifications: [radon] })) }),
    query: { needEach: ['radon'] },
    codes: [],
  },
  {
    rule: 'the qualification ended',
    world: ben({ qualifications: [{ key: 'radon', until: MON }] }),
    query: { needAny: ['radon'] },
    codes: ['not-qualified'],
    reason: 'radon',
  },
  {
    rule: 'one of the two holds what the crew needs',
    world: ben({ qualifications: [{ key: 'radon', until: TUE }] }),
    query: { needAny: ['radon'] },
    codes: [],
  },
  {
    rule: 'not acknowledged, grace over',
    world: ben(missing(MON)),
    codes: ['acknowledgement'],
    reason: 'Ben Cole has not acknowledged revision 7.',
  },
  { rule: 'not acknowledged, last day of the grace', world: ben(missing(TUE)), codes: [] },
  {
    rule: 'barred from the property',
    world: ben({ barredFrom: ['property-1'] }),
    query: { involves: ['property-1', 'party-2'] },
    codes: ['barred'],
    reason: 'Ben Cole may not be sent to this property',
  },
  { rule: 'barred from another property', world: ben({ barredFrom: ['property-9'] }), query: { involves: ['property-1'] }, codes: [] },
  {
    rule: 'away all day',
    world: ben({ off: [{ day: TUE, start: 0, end: 1440, why: 'vacation' }] }),
    codes: ['absent'],
    reason: '1 is away or booked all day, 1 could come; two are needed.',
  },
  { rule: 'away on another day', world: ben({ off: [{ day: WED, start: 0, end: 1440, why: 'vacation' }] }), codes: [] },
  {
    rule: 'does not work that day',
    world: ben({ shifts: [{ day: WED, start: 480, end: 1020 }] }),
    codes: ['outside-hours'],
    reason: '1 does not work',
  },
  {
    rule: 'works only in the afternoon, too short',
    world: ben({ shifts: [{ day: TUE, start: 900, end: 1020 }] }),
    codes: ['outside-hours'],
    reason: '1 has no gap long enough',
  },
  {
    rule: 'visits at 9:00 overlap',
    world: world({ busy: [visit('v1', ['ben', 'cal'], 500, 1000)] }),
    codes: ['overlap'],
    reason: 'two are needed',
  },
  {
    rule: 'an observer is busy too',
    world: world({ busy: [visit('v1', ['cal', 'dot'], 500, 1000, { observerIds: ['ben'] })] }),
    codes: ['overlap'],
    reason: 'two are needed',
  },
  {
    rule: 'the drive from the visit before does not fit',
    world: world({ busy: [visit('v1', ['ben', 'cal'], 480, 530, { place: PORT_ANSEL })] }),
    codes: ['travel'],
  },
  {
    rule: 'never together',
    world: world({ pairRules: [never] }),
    codes: ['pair-rule'],
    reason: 'may not go together under the pairing rules',
  },
  { rule: 'never together concerns others', world: world({ pairRules: [{ ...never, a: 'cal' }] }), codes: [] },
  { rule: 'tied to somebody else', world: world({ pairRules: [tied('ben', 'cal')] }), codes: ['pair-rule'], reason: 'pairing rules' },
  { rule: 'tied to each other', world: world({ pairRules: [tied('ben', 'ann')] }), codes: [] },
  {
    rule: 'all kit is on the road',
    world: world({ busy: [carried], kit: meter(1) }),
    query: { kit: ['moisture meter'] },
    codes: ['kit'],
    reason: 'All 1 of moisture meter are taken that day',
  },
  { rule: 'a second piece is left', world: world({ busy: [carried], kit: meter(2) }), query: { kit: ['moisture meter'] }, codes: [] },
  {
    rule: 'the piece is out of service',
    world: world({ kit: meter(1, [{ from: MON, count: 1 }]) }),
    query: { kit: ['moisture meter'] },
    codes: ['kit'],
    reason: 'No moisture meter is in service that day.',
  },
  {
    rule: 'the piece is back in service',
    world: world({ kit: meter(1, [{ from: MON, until: MON, count: 1 }]) }),
    query: { kit: ['moisture meter'] },
    codes: [],
  },
  {
    rule: 'the crew carries a piece that has gone out of service',
    world: world({ busy: [visit('v1', ['ben', 'ann'], 780, 960, { kit: ['moisture meter'] })], kit: meter(1, [{ from: TUE, count: 1 }]) }),
    query: { kit: ['moisture meter'] },
    codes: ['kit'],
    reason: 'No moisture meter is in service that day.',
  },
  {
    rule: 'the crew carries one of two kinds, another crew the other',
    world: world({
      busy: [
        visit('v1', ['ben', 'ann'], 780, 960, { kit: ['moisture meter'] }),
        visit('v2', ['cal', 'dot'], 780, 960, { kit: ['sewer camera'] }),
      ],
      kit: [...meter(1), { kind: 'sewer camera', count: 1, outOfService: [] }],
    }),
    query: { kit: ['moisture meter', 'sewer camera'] },
    codes: ['kit'],
    reason: 'All 1 of sewer camera are taken that day (1 on the road).',
  },
  {
    rule: 'the kit is with the pair, not with one of them',
    world: world({ busy: [visit('v1', ['ben', 'ann'], 780, 960, { kit: ['moisture meter'] })], kit: meter(1) }),
    query: { kit: ['moisture meter'], crewSize: 1 },
    codes: ['kit'],
    reason: 'All 1 of moisture meter',
  },
  {
    rule: 'kit the firm does not own',
    world: world(),
    query: { kit: ['sewer camera'] },
    codes: ['kit'],
    reason: 'No sewer camera is in service',
  },
  {
    rule: 'the same crew keeps its kit all day',
    world: world({ busy: [visit('v1', ['ben', 'ann'], 780, 960, { kit: ['moisture meter'] })], kit: meter(1) }),
    query: { kit: ['moisture meter'] },
    codes: [],
  },
  {
    rule: 'too late for the roof',
    world: world(),
    query: { roofWork: { offsetMinutes: 760 } },
    codes: ['daylight'],
    reason: 'Daylight ends at 8:3',
  },
  { rule: 'in time for the roof', world: world(), query: { roofWork: roof }, codes: [] },
  {
    rule: 'a person in training does not go alone',
    world: world({ people: [person('ann', { trainee: true })] }),
    query: { crewSize: 1 },
    codes: ['crew'],
    reason: 'Only people in training are free',
  },
  {
    rule: 'a person who may not go first goes alone',
    world: world({ people: [person('ann', { mayLead: false })] }),
    query: { crewSize: 1 },
    codes: [],
  },
  {
    rule: 'tied to somebody, alone',
    world: world({ pairRules: [tied('ann', 'ben')], people: [person('ann')] }),
    query: { crewSize: 1 },
    codes: ['pair-rule'],
    reason: 'may not go alone under the pairing rules',
  },
  {
    rule: 'alone without what the job needs',
    world: world({ people: [person('ann')] }),
    query: { crewSize: 1, needAny: ['radon'] },
    codes: ['not-qualified'],
    reason: 'radon',
  },
];

describe('hard rules of a start', () => {
  it.each(CASES)('$rule', (given) => {
    const asked = query(given.query);
    const second = asked.crewSize === 1 ? null : 'ben';
    const codes = checkStart(given.world, asked, { day: TUE, start: NINE, first: 'ann', second }).map((one) => one.code);
    expect(codes).toEqual(given.codes);
    const { options, blockedDays } = findStarts(given.world, asked);
    const offered = options.some(
      (one) => [one.first, one.second].includes('ann') && (second === null || [one.first, one.second].includes('ben')),
    );
    expect(offered).toBe(given.reason === undefined);
    const said = blockedDays.flatMap((one) => one.reasons).join(' ');
    expect(said).toContain(given.reason ?? '');
    expect(said === '').toBe(offered);
    expect(explainDay(given.world, asked, TUE).reasons.join(' ')).toBe(said);
  });
});

describe('the crew as named', () => {
  const check = (first: string, second: string | null, change: Partial<PersonInput> = {}) =>
    checkStart(ben(change), query(), { day: TUE, start: NINE, first, second }).map((one) => one.sentence);

  it.each([
    { why: 'one person for a visit of two', first: 'ann', second: null, sentence: 'The visit takes two people.' },
    { why: 'the same person twice', first: 'ann', second: 'ann', sentence: 'The visit takes two people.' },
    { why: 'a person who has left', first: 'ann', second: 'zoe', sentence: 'A person of the crew is not with the firm.' },
  ])('refuses $why', ({ first, second, sentence }) => expect(check(first, second)).toEqual([sentence]));

  it('refuses a first who may not go first when the second may', () => {
    expect(check('ben', 'ann', { mayLead: false })).toEqual(['Ben Cole may not go first; Ann Bell may.']);
    expect(check('ann', 'ben', { mayLead: false })).toEqual([]);
  });

  it('takes either as first when both may', () => {
    expect(check('ben', 'ann')).toEqual([]);
  });

  it('refuses two people for a visit of one', () => {
    expect(checkStart(world(), query({ crewSize: 1 }), { day: TUE, start: NINE, first: 'ann', second: 'ben' })[0]?.sentence).toBe(
      'The visit takes one person.',
    );
  });
});
