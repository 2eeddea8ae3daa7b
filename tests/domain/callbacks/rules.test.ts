// Rules of callbacks as tables: does it, refuses it, stays quiet.
import { describe, expect, it } from 'vitest';
import { checkProposal, decideApproval, decideProposal, limitOf, type Limit } from '@backsight/domain/callbacks/approval';
import { decideConclusion } from '@backsight/domain/callbacks/conclusion';
import { decideRecovery, decideReserve, incurred, paymentLines } from '@backsight/domain/callbacks/money';
import { policyFor, policyWarnings, type Policy } from '@backsight/domain/callbacks/policy';
import { mayGo } from '@backsight/domain/callbacks/visit';
import { readPack } from '@backsight/domain/firm/stored';
import { claimReadings, claimWindow } from '@backsight/domain/liability/claimWindow';

const said = (outcome: { ok: true; value: unknown } | { ok: false; code: string }) => (outcome.ok ? 'yes' : outcome.code);

describe('approval limits', () => {
  const limits = [
    { role: 'owner', limitCents: null },
    { role: 'lead_inspector', limitCents: 50_000 },
    { role: 'office_manager', limitCents: 10_000 },
  ];
  const loan = [{ role: 'lead_inspector', fromDay: '2026-05-10', untilDay: '2026-05-12' }];
  it.each<[string[], typeof loan, string, Limit]>([
    [['inspector'], [], '2026-05-12', 'none'],
    [['office_manager'], [], '2026-05-12', 10_000],
    [['lead_inspector', 'office_manager'], [], '2026-05-12', 50_000],
    [['owner', 'inspector'], [], '2026-05-12', null],
    [['office_manager'], loan, '2026-05-12', 50_000],
    [['office_manager'], loan, '2026-05-13', 10_000],
    [['office_manager'], loan, '2026-05-09', 10_000],
    [['inspector'], loan, '2026-05-10', 50_000],
  ])('%j with loans %j on %s: %j', (roles, loans, day, limit) => expect(limitOf({ roles, limits, loans }, day)).toBe(limit));

  it.each<[number, Limit, string]>([
    [50_000, 50_000, 'approved'],
    [50_001, 50_000, 'proposed'],
    [9_000_000, null, 'approved'],
    [0, 0, 'approved'],
    [1, 'none', 'no-approval-limit'],
  ])('proposing %i within %j: %s', (cents, limit, answer) => {
    const outcome = decideProposal(cents, 0, limit, false);
    expect(outcome.ok ? outcome.value.state : outcome.code).toBe(answer);
  });

  const remedy = (state: 'proposed' | 'approved' | 'done' = 'proposed') => ({ state, cents: 60_000, proposedBy: 'lead' });
  it.each<[string, Limit, 'approved' | 'refused', ReturnType<typeof remedy>, string]>([
    ['owner', null, 'approved', remedy(), 'yes'],
    ['lead', null, 'approved', remedy(), 'second-person-needed'],
    ['other', 50_000, 'approved', remedy(), 'above-approval-limit'],
    ['other', 'none', 'approved', remedy(), 'no-approval-limit'],
    ['lead', 50_000, 'refused', remedy(), 'yes'],
    ['owner', null, 'refused', remedy('approved'), 'yes'],
    ['owner', null, 'approved', remedy('approved'), 'remedy-state'],
    ['owner', null, 'refused', remedy('done'), 'remedy-state'],
  ])('%s with %j says %s', (approver, limit, decision, of, answer) =>
    expect(said(decideApproval({ remedy: of, approver, limit, onTheJob: false, committed: 0 }, decision))).toBe(answer),
  );

  it('says when the approver was on the job, and only then', () => {
    const codes = (onTheJob: boolean) => {
      const outcome = decideApproval({ remedy: remedy(), approver: 'owner', limit: null, onTheJob, committed: 0 }, 'approved');
      return outcome.ok ? outcome.warnings.map(({ code }) => code) : [];
    };
    expect([codes(true), codes(false)]).toEqual([['approver-on-the-job'], []]);
  });
  it.each([
    [{ kind: 'own_repair', cents: 0, payee: '' }, 'yes'],
    [{ kind: 'own_repair', cents: 5, payee: '' }, 'remedy-pays-nothing'],
    [{ kind: 'independent_contractor', cents: 100, payee: 'Firm, LLC' }, 'own-repair-payee'],
    [{ kind: 'independent_contractor', cents: 100, payee: 'Other Electric' }, 'yes'],
    [{ kind: 'goodwill_payment', cents: 0, payee: 'x' }, 'remedy-needs-amount'],
    [{ kind: 'goodwill_payment', cents: 5, payee: ' ' }, 'remedy-needs-amount'],
    [{ kind: 'declined', cents: 0, payee: '' }, 'remedy-needs-reason'],
    [{ kind: 'revisit', cents: 0, payee: '' }, 'yes'],
  ] as const)('%j: %s', (proposal, answer) => expect(said(checkProposal(proposal, 'FIRM LLC'))).toBe(answer));
});

describe('money', () => {
  const of = { callbackId: 'c', jobId: 'j' };
  const now = (paidCents: number, reservedCents: number, recoveredCents = 0) => ({
    paidCents,
    reservedCents,
    recoveredCents,
    incurredCents: incurred({ paidCents, reservedCents, recoveredCents }),
  });
  const short = (lines: readonly { account: string; cents: number }[]) => lines.map(({ account, cents }) => `${account} ${cents}`);
  it.each([
    [0, 500, ['callback-cost 500', 'callback-reserve -500']],
    [500, 200, ['callback-cost -300', 'callback-reserve 300']],
    [500, 500, 'reserve-unchanged'],
    [500, -1, 'reserve-below-zero'],
  ])('from %i set aside to %i', (from, to, answer) => {
    const outcome = decideReserve(now(0, from), to, of);
    expect(outcome.ok ? short(outcome.value) : outcome.code).toEqual(answer);
  });
  it.each([
    [500, 300, 'callback_payment', ['callback-reserve 300', 'bank -300']],
    [500, 800, 'callback_payment', ['callback-reserve 500', 'callback-cost 300', 'bank -800']],
    [0, 800, 'fee_refund', ['fee-refunds 800', 'bank -800']],
  ] as const)('with %i set aside, paying %i as %s', (reserve, cents, kind, lines) => {
    const made = paymentLines(now(0, reserve), cents, kind, of);
    expect(short(made)).toEqual(lines);
    expect(made.reduce((sum, l) => sum + l.cents, 0)).toBe(0);
  });
  it.each([
    [800, 800, 'yes'],
    [800, 801, 'recovery-too-large'],
    [0, 1, 'recovery-too-large'],
  ])('of %i paid, %i back: %s', (paid, cents, answer) => expect(said(decideRecovery(now(paid, 0), cents, of))).toBe(answer));
});

describe('conclusions and the rest', () => {
  const facts = {
    steps: [{ stepKey: 'a', revisionId: 'r1' }],
    entries: [
      { id: 'e', stepKey: 'a' },
      { id: 'f', stepKey: 'b' },
    ],
    onTheJob: false,
    permissionId: null,
  };
  it.each([
    [{ cause: 'skipped', stepKey: 'a', entryId: 'e' }, 'yes'],
    [{ cause: 'skipped' }, 'cause-needs-step'],
    [{ cause: 'not_in_procedure' }, 'yes'],
    [{ cause: 'not_in_procedure', stepKey: 'a' }, 'yes'],
    [{ cause: 'unclear', stepKey: 'b' }, 'step-not-on-this-job'],
    [{ cause: 'skipped', stepKey: 'a', entryId: 'f' }, 'entry-of-another-step'],
    [{ cause: 'nothing_shown', stepKey: 'a' }, 'cause-takes-no-step'],
    [{ cause: 'nothing_shown' }, 'yes'],
  ] as const)('%j: %s', (command, answer) => expect(said(decideConclusion(facts, command))).toBe(answer));

  it.each([
    [['a', 'b'], 'original-pair-alone'],
    [['a', 'c'], 'yes'],
    [['c', 'd'], 'yes'],
    [['a'], 'original-pair-alone'],
  ])('%j after a and b: %s', (pair, answer) => expect(said(mayGo(pair, ['a', 'b']))).toBe(answer));

  it('falls under the policy of its kind, by the day of the claim or of the visit', () => {
    const policy = (id: string, kind: string, basis: string, startsOn: string, endsOn: string): Policy => ({
      id,
      kind,
      basis,
      insurer: 'M',
      startsOn,
      endsOn,
      retroactiveOn: basis === 'claims_made' ? '2025-01-01' : null,
    });
    const policies = [
      policy('p25', 'professional', 'claims_made', '2025-01-01', '2026-01-01'),
      policy('p26', 'professional', 'claims_made', '2026-01-01', '2027-01-01'),
      policy('g25', 'general', 'occurrence', '2025-01-01', '2026-01-01'),
    ];
    const days = { receivedOn: '2026-02-01', inspectedOn: '2025-06-01' };
    expect([
      policyFor('missed', policies, days)?.id,
      policyFor('damage_or_injury', policies, days)?.id,
      policyFor('damage_or_injury', policies, { ...days, inspectedOn: '2026-01-15' }),
    ]).toEqual(['p26', 'g25', null]);
    const codes = (today: string, inspectedOn: string) => policyWarnings(policies[1]!, { today, inspectedOn }).map(({ code }) => code);
    expect([codes('2026-02-01', '2025-06-01'), codes('2026-12-15', '2025-06-01'), codes('2026-02-01', '2024-06-01')]).toEqual([
      [],
      ['policy-ends'],
      ['before-retroactive-date'],
    ]);
  });
  it('counts the claim window from the day that the rule names, by short and long reading', () => {
    const days = { inspectedOn: '2024-02-28', completedOn: '2024-02-29', deliveredOn: '2024-03-02', discoveredOn: null };
    const rule = (from: 'completed' | 'delivered' | 'discovered') =>
      claimReadings(readPack({ claimWindow: { shortYears: 2, longYears: 6, from, sources: ['a', 'b'] } }).rows, '2024-02-28');
    expect(claimWindow(rule('completed'), days)).toEqual({
      ...{ from: '2024-02-29', countsFrom: 'completed' },
      ...{ shortUntil: '2026-02-28', longUntil: '2030-02-28' },
    });
    expect(claimWindow(rule('discovered'), days)?.from).toBe('2024-03-02');
    expect(claimWindow(rule('completed'), { inspectedOn: null, completedOn: null, deliveredOn: null, discoveredOn: null })).toBe(null);
    expect(claimWindow([], days)).toBe(null);
  });
});
