// Tag: time.
// Rules about working time: deciding about absences, education hours by period, miles and what they are repaid with.
import { describe, expect, it } from 'vitest';
import { decideAbsence, stateAtFirst } from '@backsight/domain/people/absences';
import { educationPeriod, educationStanding, stageOf, type EducationRule } from '@backsight/domain/people/education';
import { checkDueOn, mayNoteCheck } from '@backsight/domain/people/kit';
import { periodFits, repaidCents, tenthsDriven } from '@backsight/domain/people/mileage';
import { readEducationRule } from '@backsight/domain/people/stored';
import { exceptionFits, visitsOutsideDay } from '@backsight/domain/people/times';
import { routeTenths } from '@backsight/scheduling/distance';
import { RULE_PACKS } from '../../../prisma/seed/starter/rulePack.ts';

const codeOf = (outcome: { ok: boolean; code?: string }): string => (outcome.ok ? 'ok' : outcome.code!);

describe('an absence', () => {
  const asked = { state: 'asked', withdrawn: false } as const;
  it.each([
    ['approves', asked, [], { approve: true, reason: '', keepVisits: false }, 'ok'],
    ['approves over visits that are kept', asked, ['Job 7'], { approve: true, reason: '', keepVisits: true }, 'ok'],
    ['does not approve over visits by itself', asked, ['Job 7'], { approve: true, reason: '', keepVisits: false }, 'absence-hits-visits'],
    ['refuses with a reason, visits or not', asked, ['Job 7'], { approve: false, reason: 'peak', keepVisits: false }, 'ok'],
    ['does not refuse without one', asked, [], { approve: false, reason: '', keepVisits: false }, 'absence-refusal-reason'],
    ['decides once', { state: 'approved', withdrawn: false }, [], { approve: true, reason: '', keepVisits: false }, 'absence-decided'],
    [
      'does not decide what is withdrawn',
      { state: 'asked', withdrawn: true },
      [],
      { approve: true, reason: '', keepVisits: false },
      'absence-withdrawn',
    ],
  ] as const)('%s', (_, absence, hits, decision, code) => expect(codeOf(decideAbsence(absence, hits, decision))).toBe(code));
  it('is asked for by inspectors and counts at once from those who decide', () => {
    expect([stateAtFirst(['inspector']), stateAtFirst(['inspector', 'lead_inspector']), stateAtFirst(['office_manager'])]).toEqual([
      'asked',
      'approved',
      'approved',
    ]);
  });
});

describe('a day with other hours', () => {
  const visit = { jobNumber: 1, address: 'x', startsAt: new Date('2026-05-18T14:00:00Z'), endsAt: new Date('2026-05-18T16:00:00Z') };
  it.each([
    [null, 1],
    [{ start: 540, end: 660 }, 0],
    [{ start: 541, end: 660 }, 1],
    [{ start: 540, end: 659 }, 1],
  ])('%j leaves %i of one visit outside', (hours, count) =>
    expect(visitsOutsideDay(hours, [visit], 'America/Chicago')).toHaveLength(count),
  );
  it.each([
    [null, null, 'ok'],
    [480, 540, 'ok'],
    [480, null, 'work-exception-hours'],
    [null, 480, 'work-exception-hours'],
    [540, 540, 'work-hours-backwards'],
  ])('from %s until %s: %s', (from, until, code) => expect(codeOf(exceptionFits(from, until))).toBe(code));
});

describe('education hours', () => {
  // Wisconsin: 40 hours in each two years (trade summary of the 2021 act, second-hand); renewal on 15 December of even years (from memory).
  const rule = readEducationRule(RULE_PACKS[0]!.body)!;
  it.each([
    ['2026-05-12', '2024-12-15', '2026-12-14'],
    ['2026-12-14', '2024-12-15', '2026-12-14'],
    ['2026-12-15', '2026-12-15', '2028-12-14'],
    ['2027-12-31', '2026-12-15', '2028-12-14'],
  ])('of %s belong to the period %s to %s', (day, fromDay, untilDay) => expect(educationPeriod(rule, day)).toEqual({ fromDay, untilDay }));
  it('count only within the period, on its first and last day too', () => {
    const taken = ['2024-12-14', '2024-12-15', '2026-12-14', '2026-12-15'].map((onDay) => ({ onDay, minutes: 90 }));
    expect(educationStanding(rule, taken, '2026-06-01')).toMatchObject({ needMinutes: 2400, doneMinutes: 180, missingMinutes: 2220 });
  });
  it.each([
    ['2026-06-16', null],
    ['2026-06-17', 180],
    ['2026-09-14', 180],
    ['2026-09-15', 90],
    ['2026-11-14', 30],
    ['2026-12-14', 30],
    ['2026-12-20', 30],
  ])('on %s warn at the stage %s before 2026-12-14', (today, stage) => expect(stageOf(today, '2026-12-14')).toBe(stage));
  it('are quiet once there are enough', () => {
    expect(educationStanding(rule, [{ onDay: '2026-01-10', minutes: 2400 }], '2026-12-01')).toMatchObject({
      missingMinutes: 0,
      stage: null,
    });
  });
  it('renew in every year, or in odd years, where a pack says so', () => {
    const odd: EducationRule = { ...rule, renewal: { ...rule.renewal, years: 'odd' } };
    expect(educationPeriod(odd, '2026-05-12').untilDay).toBe('2027-12-14');
    expect(educationPeriod({ ...rule, everyYears: 1, renewal: { ...rule.renewal, years: 'every' } }, '2026-05-12')).toEqual({
      fromDay: '2025-12-15',
      untilDay: '2026-12-14',
    });
  });
  it('need nothing where the pack is silent', () => expect(readEducationRule({ name: 'Elsewhere' })).toBeNull());
});

describe('miles', () => {
  const driven = (tenths: number | null, odometerStart: number | null = null, odometerEnd: number | null = null) =>
    tenthsDriven({ tenths, odometerStart, odometerEnd });
  it.each([
    ['typed', driven(123), 123],
    ['read', driven(null, 45_100, 45_162), 620],
    ['read, which counts before what is typed', driven(1, 45_100, 45_162), 620],
  ])('%s', (_, outcome, tenths) => expect(outcome).toMatchObject({ ok: true, value: tenths }));
  it.each([
    ['nothing', driven(null), 'mileage-missing'],
    ['half a reading', driven(null, 10), 'mileage-missing'],
    ['a reading backwards', driven(null, 10, 9), 'mileage-odometer'],
    ['a day around the earth', driven(null, 0, 24_901), 'mileage-too-far'],
  ])('are refused: %s', (_, outcome, code) => expect(codeOf(outcome)).toBe(code));
  it.each([
    [620, 700, 4340],
    [1, 700, 7],
    [5, 705, 35],
    [0, 700, 0],
  ])('%i tenths at %i tenths of a cent are %i cents', (tenths, rate, cents) => expect(repaidCents(tenths, rate)).toBe(cents));
  it('are listed for at most 400 days', () => {
    expect(
      [periodFits('2026-01-01', '2026-12-31'), periodFits('2026-01-02', '2026-01-01'), periodFits('2025-01-01', '2026-12-31')].map(codeOf),
    ).toEqual(['ok', 'period-backwards', 'period-too-long']);
  });
  it('are planned from the base through the day and back: none without a visit, there and back the same', () => {
    const [base, there] = [
      { lat: 44.03, lon: -88.54 },
      { lat: 44.19, lon: -88.46 },
    ];
    expect(routeTenths(base, [])).toBe(0);
    expect(routeTenths(base, [base])).toBe(0);
    // 18.9 km straight; by the bands 2·1.45 + 3·1.42 + 5·1.38 + 8.9·1.33 = 25.9 km each way, 32.2 miles there and back.
    expect(routeTenths(base, [there])).toBe(322);
  });
});

describe('checks of kit', () => {
  it.each([
    [null, 30, null],
    ['2026-05-01', 30, '2026-05-31'],
  ])('done on %s, every %i days: due %s', (done, every, due) => expect(checkDueOn(done, every)).toBe(due));
  it.each([
    [['battery'], 'battery', '2026-05-12', 'ok'],
    [['battery'], 'ladder', '2026-05-12', 'kit-check-not-needed'],
    [['battery'], 'battery', '2026-05-13', 'kit-check-in-future'],
  ])('%j: %s on %s is %s', (needed, kind, onDay, code) => expect(codeOf(mayNoteCheck(needed, kind, onDay, '2026-05-12'))).toBe(code));
});
