// Hands the report over: to the client, or with the client's consent to somebody else; the delivery instant starts claim windows.
// A job of which a result is still awaited is complete only once that was told.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { mayHandOver, reportText, type ReportBody } from '@backsight/domain/sitework/report';
import { findGateFacts } from '@backsight/store/agreements/job';
import { invoicesOfJob } from '@backsight/store/fees';
import { addDelivery, findReport, findReportJob, type ReportJob, type ReportRow } from '@backsight/store/sitework/report';
import { awaitedOfJob } from '@backsight/store/sitework/testItems';
import { gateOf } from '../agreements/steps/gate.ts';
import type { Act, Work } from '../run.ts';
import { moveJob } from './steps/moveJob.ts';
import { mayWriteReport } from './steps/reportJob.ts';

/** mail: the service sends the text of a drafted report; own_mail, paper: done by hand, recorded here. */
export type DeliveryMethod = 'mail' | 'own_mail' | 'paper';
type Input = { id: string; reportId: string; partyId: string; method: DeliveryMethod };
type Done = { id: string; deliveredAt: string; awaited: string[] };

export const handOverReport: Act<Input, Done> = { operation: 'sitework.hand-over', run: handOver };

async function handOver(work: Work, input: Input): Promise<Outcome<Done>> {
  const report = await findReport(work.tx, input.reportId);
  const job = report && (await findReportJob(work.tx, report.jobId));
  if (!report || !job) return refuse('not-found', { thing: 'report' });
  if (!mayWriteReport(job, work.actor)) return refuse('not-allowed');
  const party = job.parties.find(({ partyId }) => partyId === input.partyId);
  if (!party) return refuse('not-found', { thing: 'person on this job' });
  const recipient = { name: party.name, isClient: party.roles.includes('client'), consent: party.consentAt !== null };
  const allowed = mayHandOver({ ...(await conditions(work, job)), recipient });
  if (!allowed.ok) return allowed;
  if (input.method === 'mail') {
    if (report.source === 'taken_in') return refuse('report-by-own-mail', {}, 'method');
    if (party.email === null) return refuse('report-no-address', { name: party.name }, 'partyId');
    await mailIt(work, input.id, job, report, { email: party.email, name: party.name });
  }
  await addDelivery(work.tx, { id: input.id, reportId: report.id, partyId: party.partyId, method: input.method, at: work.now });
  const awaited = (await awaitedOfJob(work.tx, job.jobId)).map(({ what, serial }) => `${what} (${serial})`);
  await moveJob(
    work,
    job.jobId,
    'reported',
    (state) => (awaited.length === 0 && recipient.isClient && (state === 'visited' || state === 'on_site') ? 'reported' : state),
    { reportId: report.id },
  );
  await work.did('report', report.id, { handedTo: party.partyId, method: input.method, version: report.version });
  return accept({ id: input.id, deliveredAt: work.now.toISOString(), awaited });
}

/** Signed as the gate sees it, whatever was let pass at the start; paid in full unless the fee is billed to closing. */
async function conditions(work: Work, job: ReportJob) {
  const visit = job.visits[0];
  const gate = visit ? await gateOf(work.tx, visit.id) : { missing: ['agreement-unsigned'] };
  const invoices = (await invoicesOfJob(work.tx, job.jobId)).filter(({ state }) => state !== 'withdrawn');
  const invoiced = invoices.reduce((total, { totalCents }) => total + totalCents, 0);
  const open = invoices.reduce((total, { balanceCents }) => total + Math.max(0, balanceCents), 0);
  const { feeCents } = await findGateFacts(work.tx, job.jobId);
  return {
    sealed: visit?.recordState === 'sealed',
    signed: !gate.missing.some((code) => code === 'agreement-unsigned'),
    paid: open <= 0 && invoiced >= feeCents,
    payLater: job.terms === 'billed_to_closing',
  };
}

async function mailIt(
  work: Work,
  deliveryId: string,
  job: ReportJob,
  report: ReportRow,
  to: { email: string; name: string },
): Promise<void> {
  const head = [
    `${job.firm}: inspection report, version ${report.version}`,
    `Property: ${job.address}`,
    `Inspected on ${report.inspectedOn} by ${report.inspectedBy.join(' and ')}`,
    `Report of ${report.reportOn}${report.revisedOn === null ? '' : `, revised on ${report.revisedOn}`}, prepared by ${report.preparedByName}`,
  ];
  await work.mail({
    messageKey: `report-${deliveryId}`,
    toAddress: to.email,
    toName: to.name,
    subject: `Your inspection report for ${job.address}`,
    body: reportText(report.body as ReportBody, head),
    aboutKind: 'report',
    aboutId: report.id,
  });
}
