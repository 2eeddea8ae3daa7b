// What an office meets in a quarter besides plain payments: a returned check, a credit note, a write-off, a month that is closed.
import { monthEndBefore } from '@backsight/domain/fees/books';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { findInvoice } from '@backsight/store/fees';
import { writeCreditNote, writeOff } from '@backsight/usecases/fees/changeInvoice';
import { closeBooks } from '@backsight/usecases/fees/closeBooks';
import { recordPayment } from '@backsight/usecases/fees/recordPayment';
import { reversePayment } from '@backsight/usecases/fees/reversePayment';
import { changeMoneyRules } from '@backsight/usecases/fees/terms';
import { dayOf, hoursAfter } from '../calendar.ts';
import type { Scene, Stage } from '../stage.ts';
import { OFFICE, OWNER, type DemoContext, type PlayedJob } from './context.ts';

const RULES = {
  severalPayers: false,
  depositPercent: 40,
  closingDays: 30,
  returnedFeeCents: 3_000,
  taxName: 'Sales tax',
  taxThousandths: 0,
  taxServices: [],
  depositClosesGate: false,
  paidBeforeHandOver: true,
};

/** The owner sets the rules about money at the very beginning, and closes the month before last once the last one is over. */
export function keepsBooks({ calendar }: DemoContext, stage: Stage): void {
  const lastEnd = monthEndBefore(calendar.today);
  stage.at(
    calendar.at(shiftDay(calendar.today, -100), 8),
    async (later) => void (await later.act(OWNER, changeMoneyRules, { ...RULES, version: 1 })),
  );
  stage.at(calendar.at(shiftDay(calendar.today, -1), 17, 30), async (later) => {
    await later.act(OWNER, closeBooks, { id: later.newId(), through: monthEndBefore(lastEnd), reason: 'Month end, bank statement agrees' });
  });
}

/** The check came back four days after; the client sends another one a week later for all that is open. */
export const checkComesBack =
  (job: PlayedJob, paymentId: string): Scene =>
  async (stage) => {
    await stage.act(OFFICE, reversePayment, { paymentId, reason: 'returned_check', charge: true });
    if (job.number % 2 === 0) return;
    stage.at(hoursAfter(stage.now(), 24 * 7), async (later) => {
      const { balanceCents } = (await findInvoice(later.reader, job.invoiceId))!;
      const paid = {
        id: later.newId(),
        invoiceId: job.invoiceId,
        method: 'bank' as const,
        reference: `T${job.number}`,
        cents: balanceCents,
      };
      if (balanceCents > 0) await later.act(OFFICE, recordPayment, { ...paid, receivedOn: dayOf(later.now()) });
    });
  };

/** The pair came late; the owner takes something off the fee. */
export const courtesy =
  (job: PlayedJob): Scene =>
  async (stage) => {
    const { state } = (await findInvoice(stage.reader, job.invoiceId))!;
    if (state === 'issued')
      await stage.act(OWNER, writeCreditNote, {
        id: stage.newId(),
        invoiceId: job.invoiceId,
        cents: 4_000,
        reason: 'We came 50 minutes late',
      });
  };

/** A rest that is not worth another letter. */
export const letsGo =
  (job: PlayedJob): Scene =>
  async (stage) => {
    const { state, balanceCents } = (await findInvoice(stage.reader, job.invoiceId))!;
    if (state === 'issued' && balanceCents > 0)
      await stage.act(OWNER, writeOff, {
        id: stage.newId(),
        invoiceId: job.invoiceId,
        cents: balanceCents,
        reason: 'Moved away, letters came back',
      });
  };
