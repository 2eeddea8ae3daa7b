// The report is drafted from the sealed record and handed over once agreement and fee allow it.
import { findInvoice } from '@backsight/store/fees';
import { findReportJob } from '@backsight/store/sitework/report';
import { draftReportOfJob } from '@backsight/usecases/sitework/addReport';
import { handOverReport } from '@backsight/usecases/sitework/handOverReport';
import { dayOf, hoursAfter, minutesAfter } from '../calendar.ts';
import { actorOf, byId } from '../people.ts';
import type { Scene, Stage } from '../stage.ts';
import type { Defect, PlayedJob } from './context.ts';

/** Written the same evening or the next morning, handed over soon after; what is unpaid waits. */
export function reportIsWritten(stage: Stage, job: PlayedJob, defects: readonly Defect[]): void {
  const { chance } = job.plan;
  const evening = minutesAfter(job.endsAt, chance.between(60, 190));
  const written = chance.odds(0.6) ? evening : hoursAfter(evening, 16);
  stage.at(written, async (later) => {
    const reportId = later.newId();
    const day = dayOf(later.now());
    await later.act(actorOf(byId(job.first)), draftReportOfJob, {
      id: reportId,
      jobId: job.jobId,
      completedOn: dayOf(job.startsAt),
      reportOn: day,
      defects: [...defects],
    });
    later.at(minutesAfter(later.now(), chance.between(10, 50)), handsOver(job, reportId));
  });
}

const WAIT_HOURS = 20;

const handsOver =
  (job: PlayedJob, reportId: string): Scene =>
  async (stage) => {
    const invoice = (await findInvoice(stage.reader, job.invoiceId))!;
    if (invoice.state !== 'paid' && job.plan.terms !== 'billed_to_closing') {
      stage.at(hoursAfter(stage.now(), WAIT_HOURS), handsOver(job, reportId));
      return;
    }
    const facts = (await findReportJob(stage.reader, job.jobId))!;
    const receive = facts.parties.filter(({ roles, consentAt }) => roles.includes('client') || consentAt !== null);
    for (const { partyId } of receive)
      await stage.act(actorOf(byId(job.first)), handOverReport, { id: stage.newId(), reportId, partyId, method: 'mail', directory: null });
  };
