// After a visit that ended early: what is charged by the rule or waived, and whether a report is owed.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { chargeOf } from '@backsight/domain/shared/charge';
import { chargeLine } from '@backsight/domain/sitework/ending';
import { ENDINGS } from '@backsight/domain/sitework/endedAs';
import { findFeeLines, findOpenNeeds, lockJob, updateNeed, type Job } from '@backsight/store/jobs/jobs';
import { endingsOfJob, type EndingRow } from '@backsight/store/sitework/ending';
import { keepText } from '@backsight/store/text';
import { invoiceTheFee } from '../fees/steps/carryOver.ts';
import type { Act, Work } from '../run.ts';
import { deskRulesOf } from './steps/deskRules.ts';
import { endingKey, feeOf, replaceLines } from './steps/feeLines.ts';
import { noteJob } from './steps/loadJob.ts';

export type ChargeInput = { id: string; version: number; waive: boolean; reason: string };
export type Charged = { id: string; version: number; cents: number; toGiveBackCents: number };

/** Refusals: nothing-to-decide, waiver-reason. */
export const chargeEnding: Act<ChargeInput, Charged> = { operation: 'jobs.charge-ending', run: charge };

async function charge(work: Work, input: ChargeInput): Promise<Outcome<Charged>> {
  const found = await openQuestion(work, input, 'ending_fee');
  if (!found.ok) return found;
  const { job, ending } = found.value;
  if (input.waive && input.reason.trim() === '') return refuse('waiver-reason', {}, 'reason');
  const rules = await deskRulesOf(work.tx, job);
  const lines = await findFeeLines(work.tx, job.id);
  const byRule = chargeOf(feeOf(lines), rules.endings[ending.kind]);
  const charged = input.waive ? chargeOf(feeOf(lines), 0) : byRule;
  const label = `Visit that ended early: ${ENDINGS[ending.kind]}`;
  const less = chargeLine(charged, endingKey(ending.visitId), label, input.waive ? 'waived by the firm' : 'by the rule of the firm');
  await replaceLines(work, job.id, [...lines, ...less]);
  const invoiced = await invoiceTheFee(work, job.id);
  if (!invoiced.ok) return invoiced;
  const by = work.actor.kind === 'person' ? work.actor.id : null;
  await updateNeed(work.tx, job.id, 'ending_fee', { state: 'settled', details: {}, at: work.now, by });
  const textId = input.waive ? await keepText(work.tx, work.newId(), input.reason, work.now) : undefined;
  const details = {
    what: ending.kind,
    percent: charged.percent,
    cents: charged.cents,
    waived: input.waive,
    waivedCents: input.waive ? byRule.cents : 0,
  };
  const version = await noteJob(work, job.id, job.state, { kind: 'fee_decided', details }, textId);
  await work.did('job', job.id, { ...details, toGiveBackCents: invoiced.value.toGiveBackCents });
  return accept({ id: job.id, version, cents: charged.cents, toGiveBackCents: invoiced.value.toGiveBackCents });
}

async function openQuestion(
  work: Work,
  input: { id: string; version: number },
  kind: 'ending_fee' | 'report_owed',
): Promise<Outcome<{ job: Job; ending: EndingRow }>> {
  const job = await lockJob(work.tx, input.id);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (job.version !== input.version) return refuse('changed-meanwhile');
  const [ending] = await endingsOfJob(work.tx, job.id);
  const asked = (await findOpenNeeds(work.tx, job.id)).includes(kind);
  return ending && asked ? accept({ job, ending }) : refuse('nothing-to-decide');
}

export type OwedInput = { id: string; version: number; owed: boolean };

/** Refusals: nothing-to-decide, report-without-record. */
export const answerReportOwed: Act<OwedInput, { id: string; version: number }> = { operation: 'jobs.report-owed', run: answer };

async function answer(work: Work, input: OwedInput): Promise<Outcome<{ id: string; version: number }>> {
  const found = await openQuestion(work, input, 'report_owed');
  if (!found.ok) return found;
  const { job, ending } = found.value;
  if (input.owed && !ending.hasRecord) return refuse('report-without-record', {}, 'owed');
  const by = work.actor.kind === 'person' ? work.actor.id : null;
  await updateNeed(work.tx, job.id, 'report_owed', { state: 'settled', details: { how: input.owed ? 'yes' : 'no' }, at: work.now, by });
  const state = input.owed && job.state === 'ended' ? 'visited' : job.state;
  const version = await noteJob(work, job.id, state, { kind: 'report_owed', details: { owed: input.owed } });
  await work.did('job', job.id, { reportOwed: input.owed });
  return accept({ id: job.id, version });
}
