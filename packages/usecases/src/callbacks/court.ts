// A claim that went to court: the case, how it ended, and what is paid on it.
import { paymentLines } from '@backsight/domain/callbacks/money';
import { checkCase, checkOutcome, checkPaidOn, mayLeave, mayPayCourt, type CourtEnd } from '@backsight/domain/callbacks/settlement';
import { moveTo } from '@backsight/domain/callbacks/state';
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { clearancesOf, type CallbackRow } from '@backsight/store/callbacks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { moneyOf } from '@backsight/store/callbacks/money';
import { findCase, saveCase, saveCourtPayment, saveOutcome, type CaseRow } from '@backsight/store/callbacks/settlement';
import { keepText } from '@backsight/store/text';
import { postEntry } from '../fees/steps/post.ts';
import type { Act, Work } from '../run.ts';
import { actorId, record, withCallback, type Done } from './steps/callback.ts';
import { dayAt } from './steps/day.ts';

export type CaseInput = {
  id: string;
  caseId: string;
  court: string;
  reference: string;
  filedOn: string;
  answerDueOn: string | null;
  claimedCents: number;
};

export const openCase: Act<CaseInput, Done> = {
  operation: 'callbacks.open-case',
  run: (work, { id, caseId, ...input }) =>
    withCallback(work, id, async (callback) => {
      const may = moveTo(callback, 'money');
      if (!may.ok) return may;
      const job = (await findJobForCallback(work.tx, callback.jobId))!;
      const fits = checkCase(input, dayAt(work.now, job.zone));
      if (!fits.ok) return fits;
      await saveCase(work.tx, { ...input, id: caseId, callbackId: id, recordedBy: actorId(work.actor)!, recordedAt: work.now });
      return record(work, callback, { kind: 'court_filed', state: callback.state, details: { caseId, answerDueOn: input.answerDueOn } });
    }),
};

type Of = { caseId: string };
async function withCase(
  work: Work,
  { caseId }: Of,
  act: (found: CaseRow, callback: CallbackRow) => Promise<Outcome<Done>>,
): Promise<Outcome<Done>> {
  const seen = await findCase(work.tx, caseId);
  if (!seen) return refuse('not-found', { thing: 'court case' });
  return withCallback(work, seen.callbackId, async (callback) => act((await findCase(work.tx, caseId))!, callback));
}

export type OutcomeInput = Of & {
  outcomeId: string;
  kind: CourtEnd;
  decidedOn: string;
  owedCents: number;
  costsCents: number;
  words?: string;
};

/** How a case ended; a further one takes the place of the one before it. */
export const endCase: Act<OutcomeInput, Done> = {
  operation: 'callbacks.end-case',
  run: (work, input) =>
    withCase(work, input, async (found, callback) => {
      const job = (await findJobForCallback(work.tx, callback.jobId))!;
      const fits = checkOutcome(input, { ...found, today: dayAt(work.now, job.zone) });
      if (!fits.ok) return fits;
      const { outcomeId: id, caseId, kind, decidedOn, owedCents, costsCents, words } = input;
      const textId = words === undefined ? null : await keepText(work.tx, work.newId(), words, work.now);
      await saveOutcome(work.tx, {
        id,
        caseId,
        kind,
        decidedOn,
        owedCents,
        costsCents,
        textId,
        recordedBy: actorId(work.actor)!,
        recordedAt: work.now,
      });
      return record(work, callback, { kind: 'court_decided', state: callback.state, details: { caseId, outcome: kind, decidedOn } });
    }),
};

export type CourtPayInput = Of & { what: 'owed' | 'costs'; cents: number; paidOn: string };

/** Pays of what the court, or the settlement before it, says, or of the costs; never more. */
export const payCourt: Act<CourtPayInput, Done> = {
  operation: 'callbacks.pay-court',
  run: (work, input) => withCase(work, input, (found, callback) => pay(work, found, callback, input)),
};

async function pay(work: Work, found: CaseRow, callback: CallbackRow, { what, cents, paidOn }: CourtPayInput): Promise<Outcome<Done>> {
  const may = moveTo(callback, 'money');
  if (!may.ok) return may;
  const leave = mayLeave(await clearancesOf(work.tx, callback.id));
  if (!leave.ok) return leave;
  const left =
    what === 'owed' ? (found.outcome?.owedCents ?? 0) - found.paidOwedCents : (found.outcome?.costsCents ?? 0) - found.paidCostsCents;
  const fits = mayPayCourt(left, cents);
  if (!fits.ok) return fits;
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  const on = checkPaidOn(paidOn, { receivedOn: dayAt(callback.receivedAt, job.zone), today: dayAt(work.now, job.zone) });
  if (!on.ok) return on;
  const entryId = await postEntry(work, {
    kind: 'callback_payment',
    happenedOn: paidOn,
    memo: `Callback ${callback.number}: ${what === 'owed' ? 'judgment or settlement in court' : 'costs of the court case'}`,
    lines: paymentLines(await moneyOf(work.tx, callback.id), cents, 'callback_payment', { callbackId: callback.id, jobId: callback.jobId }),
  });
  await saveCourtPayment(work.tx, { entryId, caseId: found.id, what });
  return record(work, callback, { kind: 'paid', state: callback.state, details: { caseId: found.id, what, entryId } });
}
