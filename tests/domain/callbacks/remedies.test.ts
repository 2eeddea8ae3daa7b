// Rules of putting a callback right, as tables: limits over everything one callback costs, estimates, conflicts, offers, the court, the cover.
import { describe, expect, it } from 'vitest';
import { committedCents, decideApproval, decideOutside, decideProposal, mayAmend, type Limit } from '@backsight/domain/callbacks/approval';
import { conflictsOf, goOn, noticeDaysIn, type ConflictFacts } from '@backsight/domain/callbacks/conflicts';
import { aggregateLeft, coverUse } from '@backsight/domain/callbacks/cover';
import { checkEstimate, chooseEstimate } from '@backsight/domain/callbacks/estimate';
import {
  checkCase,
  checkNotice,
  checkOutcome,
  checkPaidOn,
  mayEndOffer,
  mayLeave,
  mayOffer,
  mayPayAfterRelease,
  mayPayCourt,
  offerState,
} from '@backsight/domain/callbacks/settlement';
import type { RuleRow } from '@backsight/domain/shared/rulePack';
import { AGREEMENT_TEXTS } from '../../../prisma/seed/starter/agreement.ts';

const said = (outcome: { ok: true; value?: unknown } | { ok: false; code: string }): string => (outcome.ok ? 'yes' : outcome.code);
const warned = (outcome: { ok: boolean; warnings?: { code: string }[] }) => (outcome.warnings ?? []).map(({ code }) => code);

describe('a limit holds for everything that one callback costs', () => {
  const paid = (id: string, state: 'proposed' | 'approved' | 'refused' | 'done', cents: number) => ({ id, state, cents });
  it.each<[ReturnType<typeof paid>[], number, Limit, string]>([
    [[], 50_000, 50_000, 'approved'],
    [[paid('a', 'done', 30_000)], 20_000, 50_000, 'approved'],
    [[paid('a', 'done', 30_000)], 20_001, 50_000, 'proposed'],
    [[paid('a', 'approved', 25_000), paid('b', 'done', 25_000)], 1, 50_000, 'proposed'],
    [[paid('a', 'refused', 90_000), paid('b', 'proposed', 90_000)], 50_000, 50_000, 'approved'],
    [[paid('a', 'done', 90_000)], 0, 50_000, 'approved'],
    [[paid('a', 'done', 90_000)], 9_000_000, null, 'approved'],
  ])('after %j, %i within %j: %s', (others, cents, limit, answer) => {
    const outcome = decideProposal(cents, committedCents(others, 'new'), limit, false);
    expect(outcome.ok ? outcome.value.state : outcome.code).toBe(answer);
  });
  it('for the second person too, and counts the one that is asked about once', () => {
    const remedy = { state: 'proposed' as const, cents: 30_000, proposedBy: 'office' };
    const of = (committed: number) =>
      said(decideApproval({ remedy, approver: 'lead', limit: 50_000, onTheJob: false, committed }, 'approved'));
    expect([of(20_000), of(20_001)]).toEqual(['yes', 'above-approval-limit']);
    expect(committedCents([{ id: 'x', state: 'approved', cents: 5 }], 'x')).toBe(0);
  });
  const facts = { remedy: { state: 'proposed' as const }, limit: 50_000 as Limit, leads: 1, staff: ['Ruth Hollin', 'Dolores Office'] };
  it.each([
    [facts, 'Vera Outside', 'She saw the file and agrees.', 'yes'],
    [{ ...facts, leads: 2 }, 'Vera Outside', 'She saw the file and agrees.', 'outside-reviewer-not-needed'],
    [facts, 'ruth  hollin', 'She saw the file and agrees.', 'reviewer-not-outside'],
    [facts, ' ', 'She saw the file and agrees.', 'reviewer-not-outside'],
    [facts, 'Vera Outside', 'Fine.', 'reviewer-needs-words'],
    [{ ...facts, limit: 'none' as Limit }, 'Vera Outside', 'She saw the file and agrees.', 'no-approval-limit'],
    [{ ...facts, remedy: { state: 'done' as const } }, 'Vera Outside', 'She saw the file and agrees.', 'remedy-state'],
  ])('an outside reviewer, %#', (of, reviewer, words, answer) => expect(said(decideOutside(of, { reviewer, words }))).toBe(answer));
  it.each([
    ['goodwill_payment', 'approved', 600, 'P', 'yes'],
    ['goodwill_payment', 'proposed', 500, 'Q', 'yes'],
    ['goodwill_payment', 'approved', 500, ' P ', 'remedy-unchanged'],
    ['goodwill_payment', 'done', 600, 'P', 'remedy-state'],
    ['declined', 'approved', 600, 'P', 'remedy-pays-nothing'],
  ] as const)('another amount of %s that is %s: %i to %s: %s', (kind, state, cents, payee, answer) =>
    expect(said(mayAmend({ kind, state, cents: 500, payee: 'P' }, { cents, payee }))).toBe(answer),
  );
});

describe('estimates', () => {
  const [plover, sandhill] = [
    { id: 'a', contractor: 'Plover Gutter', cents: 72_000 },
    { id: 'b', contractor: 'Sandhill', cents: 89_500 },
  ];
  const by = (estimateId: string | null, cents: number, payee: string, words = 'The lower one') => ({ estimateId, cents, payee, words });
  it.each([
    [[plover, sandhill], by('a', 72_000, 'PLOVER gutter'), 'yes', []],
    [[plover, sandhill], by('b', 89_500, 'Sandhill'), 'yes', ['not-the-lowest']],
    [[plover], by('a', 72_000, 'Plover Gutter'), 'yes', ['few-estimates']],
    [[plover, { ...plover, id: 'c' }], by('a', 72_000, 'Plover Gutter'), 'yes', ['few-estimates']],
    [[], by(null, 72_000, 'Plover Gutter'), 'yes', ['few-estimates']],
    [[plover, sandhill], by('a', 71_999, 'Plover Gutter'), 'not-as-estimated', []],
    [[plover, sandhill], by('a', 72_000, 'Sandhill'), 'not-as-estimated', []],
    [[plover, sandhill], by('a', 72_000, 'Plover Gutter', ' '), 'choice-needs-why', []],
    [[plover, sandhill], by('z', 72_000, 'Plover Gutter'), 'not-found', []],
  ])('%#', (all, chosen, answer, warnings) => {
    const outcome = chooseEstimate(all, chosen);
    expect([said(outcome), warned(outcome)]).toEqual([answer, warnings]);
  });
  const facts = { firmName: 'Firm LLC', today: '2026-05-12' };
  it.each([
    [{ contractor: 'Other', cents: 1, estimatedOn: '2026-05-12' }, 'yes'],
    [{ contractor: 'FIRM, L.L.C.', cents: 1, estimatedOn: '2026-05-12' }, 'own-repair-payee'],
    [{ contractor: 'Other', cents: 0, estimatedOn: '2026-05-12' }, 'remedy-needs-amount'],
    [{ contractor: 'Other', cents: 1, estimatedOn: '2026-05-13' }, 'in-the-future'],
  ])('%j: %s', (estimate, answer) => expect(said(checkEstimate(estimate, facts))).toBe(answer));
});

describe('what speaks against a remedy', () => {
  const row = (more: Partial<RuleRow>): RuleRow => ({
    ...{ key: 'r', topic: 'cap', words: 'W.', citation: 'C', certainty: 'memory', effect: null, fromDay: null, untilDay: null },
    ...more,
  });
  const facts = (more: Partial<ConflictFacts> = {}): ConflictFacts => ({
    ...{ binding: true, capCents: null, windows: { shortUntil: '2028-05-12', longUntil: '2032-05-12' }, noticeDays: 14, rows: [] },
    ...{ discoveredOn: '2026-06-01', receivedOn: '2026-06-02', today: '2026-06-03' },
    ...more,
  });
  it.each<[string, Partial<ConflictFacts>, Parameters<typeof conflictsOf>[1], string[]]>([
    ['nothing', {}, { kind: 'goodwill_payment', totalCents: 90_000 }, []],
    ['above the limit of the agreement', { capCents: 50_000 }, { kind: 'goodwill_payment', totalCents: 50_001 }, ['over-cap!']],
    ['at that limit', { capCents: 50_000 }, { kind: 'goodwill_payment', totalCents: 50_000 }, []],
    [
      'the limit does not bind who did not sign',
      { capCents: 50_000, binding: false },
      { kind: 'fee_refund', totalCents: 60_000 },
      ['not-bound'],
    ],
    [
      'after the shorter reading',
      { receivedOn: '2028-05-13', discoveredOn: null },
      { kind: 'fee_refund', totalCents: 1 },
      ['window-doubtful'],
    ],
    ['on its last day', { receivedOn: '2028-05-12', discoveredOn: null }, { kind: 'fee_refund', totalCents: 1 }, []],
    ['after every reading', { receivedOn: '2032-05-13', discoveredOn: null }, { kind: 'fee_refund', totalCents: 1 }, ['window-closed!']],
    ['told late', { discoveredOn: '2026-05-18' }, { kind: 'fee_refund', totalCents: 1 }, ['notice-late']],
    ['told on the last day', { discoveredOn: '2026-05-19' }, { kind: 'fee_refund', totalCents: 1 }, []],
    ['a rule on repairs', { rows: [row({ topic: 'repairs' })] }, { kind: 'independent_contractor', totalCents: 1 }, ['state-rule']],
    ['nothing against what pays nothing', { capCents: 0, binding: false }, { kind: 'revisit', totalCents: 0 }, []],
  ])('%s', (_, more, remedy, codes) =>
    expect(conflictsOf(facts(more), remedy).map(({ code, needsReason }) => `${code}${needsReason ? '!' : ''}`)).toEqual(codes),
  );
  it('says where the state may not let the limit stand', () => {
    const [cap] = conflictsOf(
      facts({ capCents: 1, rows: [row({ effect: { kind: 'cap_barred' }, words: 'A cap is barred.', citation: 'Stat. 1' })] }),
      {
        ...{ kind: 'fee_refund', totalCents: 2 },
      },
    );
    expect(cap!.text).toContain('A cap is barred (Stat. 1; from memory, to be read in the source)');
  });
  it('reads the days of the notice clause of the example text, and none where no days are said', () => {
    const clause = AGREEMENT_TEXTS[0]!.clauses.find(({ key }) => key.startsWith('notice'))!;
    expect([noticeDaysIn(clause.body), noticeDaysIn('Please tell us soon.')]).toEqual([14, null]);
  });
  it.each([
    [['over-cap'], true, 'The owner wants it settled.', 'on'],
    [['over-cap'], true, 'because', 'conflict-needs-reason'],
    [['over-cap'], false, 'The owner wants it settled.', 'waits'],
    [['not-bound'], false, '', 'on'],
    [[], true, '', 'on'],
  ] as const)('going on with %j, judge %j, %j: %s', (codes, judge, reason, answer) => {
    const conflicts = codes.map((code) => ({ code, text: code, needsReason: code === 'over-cap' }));
    const outcome = goOn(conflicts, { judge, reason });
    expect(outcome.ok ? (outcome.value.waits ? 'waits' : 'on') : outcome.code).toBe(answer);
  });
});

describe('offers, releases, notices, courts', () => {
  const today = '2026-05-12';
  it.each([
    ['goodwill_payment', 'approved', [], '2026-05-12', 'yes'],
    ['goodwill_payment', 'approved', ['withdrawn', 'expired'], '2026-05-20', 'yes'],
    ['goodwill_payment', 'approved', ['open'], '2026-05-20', 'offer-stands'],
    ['goodwill_payment', 'approved', [], '2026-05-11', 'offer-day-past'],
    ['goodwill_payment', 'proposed', [], '2026-05-20', 'remedy-not-approved'],
    ['goodwill_payment', 'done', [], '2026-05-20', 'remedy-state'],
    ['supplement', 'approved', [], '2026-05-20', 'remedy-pays-nothing'],
  ] as const)('offering %s that is %s after %j until %s: %s', (kind, state, offers, validUntil, answer) =>
    expect(said(mayOffer({ kind, state }, offers, { validUntil, today }))).toBe(answer),
  );
  it.each([
    ['2026-05-12', null, 'open', { accepted: 'yes', declined: 'yes', withdrawn: 'yes' }],
    ['2026-05-11', null, 'expired', { accepted: 'offer-ended', declined: 'yes', withdrawn: 'yes' }],
    ['2026-05-11', 'withdrawn', 'withdrawn', { accepted: 'offer-ended', declined: 'offer-ended', withdrawn: 'offer-ended' }],
  ] as const)('an offer until %s that ended %j is %s', (validUntil, end, state, ends) => {
    expect(offerState({ validUntil, end }, today)).toBe(state);
    for (const [kind, answer] of Object.entries(ends)) expect(said(mayEndOffer(state, kind as 'accepted'))).toBe(answer);
  });
  it('nothing leaves without consent or reason, and what waits for a release is not paid before it is signed', () => {
    expect([said(mayLeave([])), said(mayLeave(['x']))]).toEqual(['payment-needs-clearance', 'yes']);
    const of = (waits: boolean) => (['none', 'open', 'signed'] as const).map((state) => said(mayPayAfterRelease(waits, state)));
    expect(of(true)).toEqual(['payment-waits-for-release', 'payment-waits-for-release', 'yes']);
    expect(of(false)).toEqual(['yes', 'yes', 'yes']);
  });
  it.each([
    ['2026-05-12', 'yes'],
    ['2026-05-10', 'yes'],
    ['2026-05-09', 'before-it-came-in'],
    ['2026-05-13', 'in-the-future'],
  ])('a notice and a payment on %s: %s', (day, answer) => {
    const days = { receivedOn: '2026-05-10', today };
    expect([said(checkNotice({ notifiedOn: day }, days)), said(checkPaidOn(day, days))]).toEqual([answer, answer]);
  });
  it.each([
    [{ filedOn: '2026-05-12', answerDueOn: '2026-06-01' }, 'yes'],
    [{ filedOn: '2026-05-12', answerDueOn: null }, 'yes'],
    [{ filedOn: '2026-05-13', answerDueOn: null }, 'in-the-future'],
    [{ filedOn: '2026-05-12', answerDueOn: '2026-05-11' }, 'deadline-before-service'],
  ])('a case %j: %s', (one, answer) => expect(said(checkCase(one, today))).toBe(answer));
  const at = { filedOn: '2026-04-01', today, paidOwedCents: 0, paidCostsCents: 0 };
  it.each([
    [{ kind: 'judgment', decidedOn: today, owedCents: 90_000, costsCents: 9_450 }, at, 'yes'],
    [{ kind: 'dismissed', decidedOn: today, owedCents: 0, costsCents: 9_450 }, at, 'yes'],
    [{ kind: 'dismissed', decidedOn: today, owedCents: 1, costsCents: 0 }, at, 'court-dismissed-owes-nothing'],
    [{ kind: 'judgment', decidedOn: '2026-03-31', owedCents: 1, costsCents: 0 }, at, 'court-before-filing'],
    [{ kind: 'judgment', decidedOn: '2026-05-13', owedCents: 1, costsCents: 0 }, at, 'in-the-future'],
    [{ kind: 'settlement', decidedOn: today, owedCents: 10, costsCents: 0 }, { ...at, paidOwedCents: 11 }, 'court-paid-already'],
  ] as const)('ending %j: %s', (end, facts, answer) => expect(said(checkOutcome(end, facts))).toBe(answer));
  it.each([
    [100, 100, 'yes'],
    [100, 101, 'court-above-owed'],
    [0, 1, 'court-above-owed'],
  ])('of %i owed paying %i: %s', (left, cents, answer) => expect(said(mayPayCourt(left, cents))).toBe(answer));
});

describe('the cover', () => {
  const policy = { deductibleCents: 250_000, limitCents: 50_000_000 };
  it.each([
    [{ paidCents: 40_000, othersCents: 0, insurerCents: 0, directCents: 0 }, [40_000, 0, 0]],
    [{ paidCents: 400_000, othersCents: 0, insurerCents: 0, directCents: 0 }, [250_000, 150_000, 150_000]],
    [{ paidCents: 400_000, othersCents: 100_000, insurerCents: 20_000, directCents: 0 }, [250_000, 50_000, 30_000]],
    [{ paidCents: 400_000, othersCents: 0, insurerCents: 150_000, directCents: 700_000 }, [250_000, 150_000, 0]],
    [{ paidCents: 400_000, othersCents: 0, insurerCents: 0, directCents: 49_900_000 }, [250_000, 100_000, 100_000]],
    [{ paidCents: 0, othersCents: 5, insurerCents: 0, directCents: 0 }, [0, 0, 0]],
  ])('%j', (spent, [used, beyond, toCome]) =>
    expect(coverUse(spent, policy)).toEqual({ usedCents: used, beyondCents: beyond, toComeCents: toCome }),
  );
  it.each([
    [null, 5, null],
    [100, 30, 70],
    [100, 130, 0],
  ])('of %j for all claims after %i: %j', (aggregate, paid, left) => expect(aggregateLeft(aggregate, paid)).toBe(left));
});
