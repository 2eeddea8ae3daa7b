// Hands the report over: to the client, or with the client's consent to somebody else; the delivery instant starts claim windows.
// A job of which a result is still awaited is complete only once that was told.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { mayHandOver, reportText, type ReportBody } from '@backsight/domain/sitework/report';
import { wantsPaper } from '@backsight/domain/agreements/signers';
import { newestAgreement, signersOf } from '@backsight/store/agreements';
import { handOverOverrides } from '@backsight/store/sitework/register';
import { addDelivery, findReport, findReportJob, type ReportJob, type ReportRow } from '@backsight/store/sitework/report';
import { awaitedOfJob } from '@backsight/store/sitework/testItems';
import type { Act, Work } from '../run.ts';
import { handOverFacts } from './steps/handOverFacts.ts';
import { moveJob } from './steps/moveJob.ts';
import { mayWriteReport } from './steps/reportJob.ts';
import { dayForClient, sealReport, type Attachable } from './steps/reportPdf.ts';

/** mail: the service sends the report, a drafted one as text and file, one taken in as its file; own_mail, paper: done by hand, recorded here. */
export type DeliveryMethod = 'mail' | 'own_mail' | 'paper';
/** `directory`: where the service keeps its files; null: nowhere. */
type Input = { id: string; reportId: string; partyId: string; method: DeliveryMethod; directory: string | null };
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
  const letPass = (await handOverOverrides(work.tx, job.jobId)).flatMap(({ missing }) => missing);
  const allowed = mayHandOver({ ...(await handOverFacts(work.tx, job)), recipient, letPass });
  if (!allowed.ok) return allowed;
  const file = report.source === 'drafted' ? await sealReport(work, report, job, input.directory) : takenIn(report);
  if (input.method === 'mail') {
    if (await asksForPaper(work, job.jobId, party.partyId)) return refuse('paper-wanted', { name: party.name }, 'method');
    if (party.email === null) return refuse('report-no-address', { name: party.name }, 'partyId');
    await mailIt(work, input.id, job, report, { email: party.email, name: party.name }, file);
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

const takenIn = ({ fileSha256, fileName }: ReportRow): Attachable => ({ sha256: fileSha256!, name: fileName ?? 'report.pdf' });

/** Names with license numbers (as 68 Ill. Adm. Code 1410.250(b) asks). */
const named = (report: ReportRow, did: 'inspected' | 'prepared'): string =>
  report.people
    .filter((one) => one.did === did)
    .map(({ name, license, until }) => (license && until ? `${name} (license ${license}, valid until ${dayForClient(until)})` : name))
    .join(' and ');

/** The client took the consent to electronic records back. */
async function asksForPaper(work: Work, jobId: string, partyId: string): Promise<boolean> {
  const agreement = await newestAgreement(work.tx, jobId);
  const signer = agreement && (await signersOf(work.tx, agreement.id)).find((one) => one.partyId === partyId);
  return signer ? wantsPaper(signer) : false;
}

async function mailIt(
  work: Work,
  deliveryId: string,
  job: ReportJob,
  report: ReportRow,
  to: { email: string; name: string },
  file: Attachable | null,
): Promise<void> {
  const head = [
    `${job.firm}: inspection report, version ${report.version}`,
    `Property: ${job.address}`,
    `Inspected on ${dayForClient(report.inspectedOn)} by ${named(report, 'inspected')}`,
    `Report of ${dayForClient(report.reportOn)}${report.revisedOn === null ? '' : `, revised on ${dayForClient(report.revisedOn)}`}, prepared by ${named(report, 'prepared')}`,
  ];
  await work.mail({
    messageKey: `report-${deliveryId}`,
    toAddress: to.email,
    toName: to.name,
    subject: `Your inspection report for ${job.address}`,
    body:
      report.source === 'taken_in'
        ? [...head, '', 'The report is attached as a PDF.', `Its fingerprint (SHA-256): ${report.fileSha256}`].join('\n')
        : reportText(
            report.body as ReportBody,
            file ? [...head, `The same report is attached as a PDF. Its fingerprint (SHA-256): ${file.sha256}`] : head,
          ),
    attachments: file ? [file] : [],
    aboutKind: 'report',
    aboutId: report.id,
  });
}
