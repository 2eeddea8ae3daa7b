// Confirms a held job: the visit is booked, the agreement and the invoice are issued.
import { mayConfirm } from '@backsight/domain/jobs/decide';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import type { JobForAgreement } from '@backsight/store/agreements/job';
import { lockJob, updateNeed } from '@backsight/store/jobs/jobs';
import { findJobParties } from '@backsight/store/jobs/parties';
import { findVisit, findVisitsOfJob, keepHeld, type VisitRow } from '@backsight/store/schedule/visits';
import { issueAgreement } from '../agreements/steps/issueAgreement.ts';
import { issueInvoice } from '../fees/steps/issueInvoice.ts';
import type { Act, Work } from '../run.ts';
import { reserveStart } from '../schedule/steps/reserveStart.ts';
import { comingOf } from './steps/coming.ts';
import { demandFor, jobContext, noteJob } from './steps/loadJob.ts';
import { tellBooked } from './steps/tellClients.ts';

export type ConfirmInput = { id: string; publicUrl: string };
export type Confirmed = { id: string; version: number; agreementId: string; invoiceId: string; invoiceNumber: number; warnings: Warning[] };

export const confirmJob: Act<ConfirmInput, Confirmed> = { operation: 'jobs.confirm', run: confirm };

async function confirm(work: Work, { id, publicUrl }: ConfirmInput): Promise<Outcome<Confirmed>> {
  const [context, visits] = await Promise.all([jobContext(work.tx, id, work.now), findVisitsOfJob(work.tx, id)]);
  if (!context.ok) return context;
  const visit = visits.find(({ state }) => state === 'held' || state === 'lapsed');
  if (!visit) return refuse('job-is', { state: context.value.job.state });
  const demand = demandFor(context.value, visit.kind, visit.startsAt);
  if (!demand.ok) return demand;
  const asHeld = { ...demand.value, minutes: (visit.endsAt.getTime() - visit.startsAt.getTime()) / 60_000, kit: visit.kit };
  const free = await reserveStart(work, {
    office: context.value.catalog.office,
    demand: asHeld,
    start: { startsAt: visit.startsAt.toISOString(), first: visit.first, second: visit.second },
    moving: visit,
    chosen: true,
  });
  if (!free.ok) return free;
  const booked = await book(work, id, visit);
  return booked.ok ? issuePapers(work, { id, version: booked.value, publicUrl }) : booked;
}

/** The start is ours now: the job is locked after its people's days, looked at again, and booked. Answers its new version. */
async function book(work: Work, id: string, seen: VisitRow): Promise<Outcome<number>> {
  const [job, parties, visit] = await Promise.all([lockJob(work.tx, id), findJobParties(work.tx, id), findVisit(work.tx, seen.id)]);
  const allowed = mayConfirm({ state: job!.state, roles: parties.map(({ role }) => role) });
  if (!allowed.ok) return allowed;
  if (!visit || visit.startsAt.getTime() !== seen.startsAt.getTime()) return refuse('changed-meanwhile');
  const details = { visitId: visit.id, startsAt: visit.startsAt.toISOString() };
  const [kept, version] = await Promise.all([
    keepHeld(work.tx, visit.id, visit.version),
    noteJob(work, id, 'booked', { kind: 'confirmed', details }),
  ]);
  return kept ? accept(version) : refuse('changed-meanwhile');
}

type Booked = { id: string; version: number; publicUrl: string };

async function issuePapers(work: Work, { id, version, publicUrl }: Booked): Promise<Outcome<Confirmed>> {
  const agreement = await issueAgreement(work, { jobId: id, publicUrl });
  if (!agreement.ok) return agreement;
  const invoice = await issueInvoice(work, id);
  if (!invoice.ok) return invoice;
  await Promise.all([payerKnown(work, id), tellOfBooking(work, agreement.value.job)]);
  const warnings = [...agreement.warnings, ...invoice.warnings];
  await work.did('job', id, {
    state: 'booked',
    agreementId: agreement.value.agreementId,
    invoice: invoice.value.number,
    warnings: warnings.map(({ code }) => code),
  });
  return accept(
    {
      id,
      version,
      agreementId: agreement.value.agreementId,
      invoiceId: invoice.value.invoiceId,
      invoiceNumber: invoice.value.number,
      warnings,
    },
    warnings,
  );
}

/** The appointment, with its calendar entry; the agreement comes in a mail of its own, with a private link. */
async function tellOfBooking(work: Work, job: JobForAgreement): Promise<void> {
  if (!job.visit) return;
  const { id: visitId, version, startsAt, endsAt } = job.visit;
  const at = { startsAt: new Date(startsAt), endsAt: new Date(endsAt) };
  const what = job.kind === 'reinspection' ? 're-inspection' : 'inspection';
  await tellBooked(work, job, { key: `booked:${visitId}`, visitId, version, what, at, coming: await comingOf(work, job) });
}

/** The invoice names who pays, so that nobody needs to ask any more. */
async function payerKnown(work: Work, id: string): Promise<void> {
  const by = work.actor.kind === 'person' ? work.actor.id : null;
  const settled = { state: 'settled', details: { how: 'The invoice is made out to the client.' }, at: work.now, by } as const;
  await updateNeed(work.tx, id, 'payer', settled, 'open');
}
