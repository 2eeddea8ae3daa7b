// The ledger: debits equal credits in every entry, and so in the whole (double entry, Pacioli, "Summa de arithmetica", 1494).
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  balanced,
  balanceOf,
  depositEarnedLines,
  depositLines,
  invoiceLines,
  paymentLines,
  paymentReversalLines,
  reversalLines,
  trialBalance,
  type LedgerLine,
} from '@backsight/domain/fees/ledger';
import { decidePayment } from '@backsight/domain/fees/invoice';

const about = { partyId: 'p', jobId: 'j' };

describe('an entry', () => {
  it.each([
    ['one line', [5]],
    ['a sum other than 0', [5, -4]],
    ['a line of 0', [5, -5, 0]],
    ['half a cent', [0.5, -0.5]],
  ])('is refused with %s', (_, cents) => {
    expect(() => balanced(cents.map((c) => ({ cents: c })))).toThrow(/ledger/);
  });
  it('passes when it balances', () => {
    expect(balanced([{ cents: 5 }, { cents: -3 }, { cents: -2 }])).toHaveLength(3);
  });
});

describe('the entries of a fee', () => {
  it('an invoice and its payment leave income and money', () => {
    const lines = [...invoiceLines(100, about), ...paymentLines(100, about)];
    expect([balanceOf(lines, 'receivable'), balanceOf(lines, 'bank'), balanceOf(lines, 'fee-income')]).toEqual([0, 100, -100]);
  });
  it('a deposit is owed to the client until it is earned', () => {
    const held = depositLines(40, about);
    expect(balanceOf(held, 'deposits-held')).toBe(-40);
    expect(balanceOf([...held, ...depositEarnedLines(40, about)], 'receivable')).toBe(-40);
  });
  it('a deposit that came back after it was earned is owed again', () => {
    const lines = [
      ...invoiceLines(100, about),
      ...depositLines(40, about),
      ...depositEarnedLines(40, about),
      ...paymentReversalLines(depositLines(40, about), 0),
    ];
    expect([balanceOf(lines, 'receivable'), balanceOf(lines, 'deposits-held'), balanceOf(lines, 'bank')]).toEqual([100, 0, 0]);
  });
  it('a deposit that came back before it was earned touches what is owed not at all', () => {
    expect(paymentReversalLines(depositLines(40, about), 40)).toEqual(reversalLines(depositLines(40, about)));
  });
});

type Step = { act: 'pay' | 'reverse' | 'earn'; cents: number; held: boolean; which: number };
const steps = fc.array(
  fc.record({
    act: fc.constantFrom<Step['act']>('pay', 'pay', 'reverse', 'earn'),
    cents: fc.integer({ min: 1, max: 60_000 }),
    held: fc.boolean(),
    which: fc.nat(),
  }),
  { maxLength: 40 },
);

describe('any history of one invoice', () => {
  it('balances, never takes more than is open, and agrees with a plain count of what was paid', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200_000 }), steps, (total, history) => {
        const lines: LedgerLine[] = [...invoiceLines(total, about)];
        const live: { cents: number; lines: readonly LedgerLine[] }[] = [];
        const heldNow = () => -balanceOf(lines, 'deposits-held');
        const open = () => balanceOf(lines, 'receivable') + balanceOf(lines, 'deposits-held');
        for (const step of history) {
          if (step.act === 'pay') {
            const paidCents = live.reduce((sum, { cents }) => sum + cents, 0);
            const invoice = { number: 1001, state: 'issued' as const, balanceCents: total - paidCents, issuedOn: '2026-05-12' };
            const answer = decidePayment(
              invoice,
              { method: 'cash', reference: '', cents: step.cents, receivedOn: '2026-05-12' },
              '2026-05-12',
            );
            expect(answer.ok).toBe(step.cents <= total - paidCents);
            if (!answer.ok) continue;
            const made = step.held ? depositLines(step.cents, about) : paymentLines(step.cents, about);
            lines.push(...made);
            live.push({ cents: step.cents, lines: made });
          } else if (step.act === 'earn' && heldNow() > 0) lines.push(...depositEarnedLines(heldNow(), about));
          else if (step.act === 'reverse' && live.length > 0) {
            const [payment] = live.splice(step.which % live.length, 1);
            lines.push(...paymentReversalLines(payment!.lines, heldNow()));
          }
          expect(heldNow()).toBeGreaterThanOrEqual(0);
          expect(open()).toBe(total - live.reduce((sum, { cents }) => sum + cents, 0));
        }
        const balance = trialBalance(lines);
        expect(balance.reduce((sum, { debit, credit }) => sum + debit - credit, 0)).toBe(0);
      }),
      { numRuns: 400 },
    );
  });
});
