// Money of a callback: what may be taken back or given back, and that paid and set aside less recovered is what happened.
import { describe, expect, it } from 'vitest';
import { decideRecovery, decideReserve, incurred, mayRefund, mayReverse, paymentLines } from '@backsight/domain/callbacks/money';

const said = (outcome: { ok: true; value?: unknown } | { ok: false; code: string }): string => (outcome.ok ? 'yes' : outcome.code);

describe('money', () => {
  const of = { callbackId: 'c', jobId: 'j' };
  const now = (paidCents: number, reservedCents: number, recoveredCents: number) => ({
    ...{ paidCents, reservedCents, recoveredCents },
    incurredCents: incurred({ paidCents, reservedCents, recoveredCents }),
  });
  it('gives sales tax back beside the fee', () => {
    const lines = paymentLines(now(0, 1_040, 0), 1_050, 'fee_refund', of, 50);
    expect(lines.map(({ account, cents }) => `${account} ${cents}`)).toEqual(['callback-reserve 1000', 'sales-tax 50', 'bank -1050']);
  });
  it.each([
    [{ kind: 'callback_payment', cents: 500, reversed: false }, now(500, 0, 0), 'yes'],
    [{ kind: 'callback_payment', cents: 500, reversed: true }, now(500, 0, 0), 'entry-reversed-already'],
    [{ kind: 'callback_payment', cents: 500, reversed: false }, now(500, 0, 1), 'recovery-first'],
    [{ kind: 'callback_payment', cents: 500, reversed: false }, now(900, 0, 400), 'yes'],
    [{ kind: 'recovery', cents: 1, reversed: false }, now(500, 0, 1), 'yes'],
    [{ kind: 'reserve_change', cents: 0, reversed: false }, now(500, 0, 0), 'entry-not-reversible'],
  ])('taking back %j of %j: %s', (entry, before, answer) => expect(said(mayReverse(before, entry))).toBe(answer));
  it.each([
    [{ number: 7, paidCents: 45_000, backCents: 0 }, 45_000, 'yes'],
    [{ number: 7, paidCents: 45_000, backCents: 1 }, 45_000, 'refund-above-fee'],
    [{ number: 7, paidCents: 0, backCents: 0 }, 1, 'refund-above-fee'],
  ])('giving back of %j %i: %s', (invoice, cents, answer) => expect(said(mayRefund(invoice, cents))).toBe(answer));

  /** A small generator of its own (a linear congruence), so that a failure is the same at every run. */
  it('paid and set aside less recovered is what happened, whatever the order of the acts, to the cent', () => {
    let seed = 20_260_512;
    const chance = (below: number): number => (seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648) % below;
    for (let run = 0; run < 200; run++) {
      const lines: { account: string; cents: number }[] = [];
      const sums = { paid: 0, reserve: 0, recovered: 0 };
      const ledger = () => {
        const sum = (...accounts: string[]) => 0 - lines.filter((l) => accounts.includes(l.account)).reduce((t, l) => t + l.cents, 0);
        return now(sum('bank', 'recoveries'), sum('callback-reserve'), sum('recoveries'));
      };
      const acts: { lines: typeof lines; undo: () => void; kind: string; cents: number }[] = [];
      for (let act = 0; act < 25; act++) {
        const cents = 1 + chance(60_000);
        const which = chance(4);
        const before = ledger();
        if (which === 0) {
          const made = decideReserve(before, cents, of);
          if (!made.ok) continue;
          lines.push(...made.value);
          sums.reserve = cents;
        } else if (which === 1) {
          const made = paymentLines(before, cents, chance(2) === 0 ? 'callback_payment' : 'fee_refund', of);
          const drawn = Math.min(cents, sums.reserve);
          lines.push(...made);
          sums.paid += cents;
          sums.reserve -= drawn;
          acts.push({ lines: made, kind: 'callback_payment', cents, undo: () => ((sums.paid -= cents), (sums.reserve += drawn)) });
        } else if (which === 2) {
          const made = decideRecovery(before, cents, of);
          expect(made.ok).toBe(cents <= sums.paid - sums.recovered);
          if (!made.ok) continue;
          lines.push(...made.value);
          sums.recovered += cents;
          acts.push({ lines: made.value, kind: 'recovery', cents, undo: () => (sums.recovered -= cents) });
        } else if (acts.length > 0) {
          const [last] = acts.splice(chance(acts.length), 1);
          if (!mayReverse(before, { kind: last!.kind, cents: last!.cents, reversed: false }).ok) continue;
          lines.push(...last!.lines.map((l) => ({ ...l, cents: -l.cents })));
          last!.undo();
        }
        expect(ledger()).toEqual(now(sums.paid, sums.reserve, sums.recovered));
        expect(lines.reduce((total, l) => total + l.cents, 0)).toBe(0);
        expect(Math.min(sums.paid, sums.reserve, sums.recovered, sums.paid - sums.recovered)).toBeGreaterThanOrEqual(0);
      }
    }
  });
});
