// Remedies carried out: paid once approved and cleared, or done in another way; and a mistaken payment or recovery taken back.
import { mayRefund, mayReverse, paymentLines } from '@backsight/domain/callbacks/money';
import { checkPaidOn, mayLeave, mayPayAfterRelease } from '@backsight/domain/callbacks/settlement';
import { moveTo } from '@backsight/domain/callbacks/state';
import { paysMoney, REMEDY_STATES, type RemedyKind } from '@backsight/domain/callbacks/words';
import { reversalLines } from '@backsight/domain/fees/ledger';
import { taxWithin } from '@backsight/domain/fees/tax';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { clearancesOf, setRemedyState, type CallbackRow, type RemedyRow } from '@backsight/store/callbacks';
import { supplementsSince } from '@backsight/store/callbacks/estimates';
import { findJobForCallback, type JobForCallback } from '@backsight/store/callbacks/job';
import { moneyOf } from '@backsight/store/callbacks/money';
import { backOnInvoice, findEntry, saveRemedyPayment } from '@backsight/store/callbacks/payments';
import { isLookedAtAgain } from '@backsight/store/callbacks/visits';
import { findInvoice, invoicesOfJob, linesOf, lockInvoice, type InvoiceRow } from '@backsight/store/fees';
import { postEntry } from '../fees/steps/post.ts';
import type { Act, Work } from '../run.ts';
import { record, withCallback, type Done } from './steps/callback.ts';
import { dayAt } from './steps/day.ts';
import { releaseOf } from './steps/release.ts';
import { withRemedy } from './steps/remedy.ts';

const approvedOnly = (remedy: RemedyRow): Outcome<null> =>
  remedy.state === 'approved'
    ? accept(null)
    : remedy.state === 'done'
      ? refuse('remedy-state', { state: REMEDY_STATES.done })
      : refuse('remedy-not-approved');

/** `invoiceId`: against which invoice a fee goes back, where several were paid. */
export type PayInput = { remedyId: string; paidOn: string; method?: string; reference?: string; invoiceId?: string };

/** Pays an approved remedy: out of what is set aside first, the rest is cost of the day. */
export const payRemedy: Act<PayInput, Done> = {
  operation: 'callbacks.pay',
  run: (work, input) => withRemedy(work, input.remedyId, (remedy, callback) => pay(work, remedy, callback, input)),
};

async function mayPay(work: Work, remedy: RemedyRow, callback: CallbackRow, paidOn: string, job: JobForCallback): Promise<Outcome<null>> {
  const may = moveTo(callback, 'money');
  if (!may.ok) return may;
  const approved = approvedOnly(remedy);
  if (!approved.ok) return approved;
  if (!paysMoney(remedy.kind as RemedyKind)) return refuse('remedy-pays-nothing');
  const leave = mayLeave(await clearancesOf(work.tx, callback.id));
  if (!leave.ok) return leave;
  const released = remedy.waitsForRelease ? mayPayAfterRelease(true, (await releaseOf(work.tx, remedy.id)).state) : accept(null);
  if (!released.ok) return released;
  return checkPaidOn(paidOn, { receivedOn: dayAt(callback.receivedAt, job.zone), today: dayAt(work.now, job.zone) });
}

async function pay(work: Work, remedy: RemedyRow, callback: CallbackRow, input: PayInput): Promise<Outcome<Done>> {
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  const may = await mayPay(work, remedy, callback, input.paidOn, job);
  if (!may.ok) return may;
  const refund = remedy.kind === 'fee_refund';
  const invoice = refund ? await paidInvoice(work, job.id, remedy.cents, input.invoiceId) : accept(null);
  if (!invoice.ok) return invoice;
  const kind = refund ? 'fee_refund' : 'callback_payment';
  const now = await moneyOf(work.tx, callback.id);
  const tax = invoice.value ? taxWithin(remedy.cents, invoice.value) : 0;
  const entryId = await postEntry(work, {
    kind,
    happenedOn: input.paidOn,
    memo: `Callback ${callback.number}: ${refund ? `fee refund, invoice ${invoice.value?.number}` : 'payment'}`,
    lines: paymentLines(now, remedy.cents, kind, { callbackId: callback.id, jobId: callback.jobId }, tax),
  });
  const { method = '', reference = '' } = input;
  await saveRemedyPayment(work.tx, { entryId, remedyId: remedy.id, invoiceId: invoice.value?.id ?? null, method, reference });
  await setRemedyState(work.tx, remedy.id, 'done');
  const details = { remedyId: remedy.id, entryId };
  return record(work, callback, { kind: 'paid', state: callback.state, details }, beyond(remedy.cents, now.reservedCents));
}

const beyond = (cents: number, reservedCents: number): Warning[] =>
  reservedCents > 0 && cents > reservedCents
    ? [{ code: 'above-what-is-set-aside', text: 'More was paid than was set aside: the rest is cost of the day.' }]
    : [];

/** The invoice whose fee goes back, locked: the one that is named, else the one with the most left to give back. */
async function paidInvoice(work: Work, jobId: string, cents: number, named?: string): Promise<Outcome<InvoiceRow>> {
  const paid = (await invoicesOfJob(work.tx, jobId)).filter((one) => one.paidCents > 0 && (named === undefined || one.id === named));
  const [first] = paid.toSorted((a, b) => b.paidCents - a.paidCents);
  if (!first) return named === undefined ? refuse('no-fee-paid') : refuse('not-found', { thing: 'paid invoice' }, 'invoiceId');
  await lockInvoice(work.tx, first.id);
  const invoice = (await findInvoice(work.tx, first.id))!;
  const may = mayRefund({ ...invoice, backCents: await backOnInvoice(work.tx, invoice.id) }, cents);
  return may.ok ? accept(invoice) : may;
}

/** Carries out an approved remedy that pays nothing; a visit, a supplement and a notice show themselves that they were. */
export const finishRemedy: Act<{ remedyId: string; words?: string }, Done> = {
  operation: 'callbacks.finish-remedy',
  run: (work, { remedyId, words }) =>
    withRemedy(work, remedyId, async (remedy, callback) => {
      const approved = approvedOnly(remedy);
      if (!approved.ok) return approved;
      const shown = await shows(work, remedy, callback);
      if (!shown.ok) return shown;
      await setRemedyState(work.tx, remedyId, 'done');
      const details = { remedyId, remedy: remedy.kind, ...shown.value };
      return record(work, callback, { kind: 'remedy_done', state: callback.state, details, ...(words === undefined ? {} : { words }) });
    }),
};

async function shows(work: Work, remedy: RemedyRow, callback: CallbackRow): Promise<Outcome<{ reportId?: string }>> {
  const kind = remedy.kind as RemedyKind;
  if (paysMoney(kind)) return refuse('remedy-state', { state: 'to be paid' });
  if (kind === 'insurer_notice') return refuse('notice-needs-details');
  if (kind === 'revisit') return (await isLookedAtAgain(work.tx, remedy.id)) ? accept({}) : refuse('visit-not-done');
  if (kind !== 'supplement') return accept({});
  const [newest] = await supplementsSince(work.tx, callback.jobId, remedy.recordedAt);
  if (newest) return accept({ reportId: newest.id });
  return refuse('supplement-not-handed-over', { number: (await findJobForCallback(work.tx, callback.jobId))!.number });
}

export type ReverseInput = { entryId: string; words: string };

/** Takes a mistaken payment or recovery back by a linked entry of today; the remedy is to be paid again. */
export const reverseEntry: Act<ReverseInput, Done> = {
  operation: 'callbacks.reverse-entry',
  run: async (work, { entryId, words }) => {
    const seen = await findEntry(work.tx, entryId);
    return seen
      ? withCallback(work, seen.callbackId, (callback) => reverse(work, callback, entryId, words))
      : refuse('not-found', { thing: 'entry' });
  },
};

async function reverse(work: Work, callback: CallbackRow, entryId: string, words: string): Promise<Outcome<Done>> {
  const entry = (await findEntry(work.tx, entryId))!;
  const open = entry.kind === 'recovery' ? accept(callback.state) : moveTo(callback, 'money');
  if (!open.ok) return open;
  const may = mayReverse(await moneyOf(work.tx, callback.id), entry);
  if (!may.ok) return may;
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  const reversalId = await postEntry(work, {
    kind: 'reversal',
    happenedOn: dayAt(work.now, job.zone),
    memo: `Callback ${callback.number}: ${entry.kind === 'recovery' ? 'recovery' : 'payment'} taken back`,
    lines: reversalLines(await linesOf(work.tx, entryId)),
    reversesId: entryId,
  });
  if (entry.remedyId) await setRemedyState(work.tx, entry.remedyId, 'approved');
  const kind = entry.kind === 'recovery' ? 'recovery_reversed' : 'payment_reversed';
  return record(work, callback, { kind, state: callback.state, details: { entryId, reversalId, remedyId: entry.remedyId }, words });
}
