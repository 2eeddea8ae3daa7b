// The fee comes in by its terms: before the visit, at the door, in two parts, or weeks later through the closing.
import { findInvoice } from '@backsight/store/fees';
import type { Method } from '@backsight/domain/fees/invoice';
import { earnDeposit } from '@backsight/usecases/fees/earnDeposits';
import { recordPayment } from '@backsight/usecases/fees/recordPayment';
import { dayOf, hoursAfter, minutesAfter } from '../calendar.ts';
import { SERVICE } from '../people.ts';
import type { Scene, Stage } from '../stage.ts';
import { checkComesBack, courtesy, letsGo } from './books.ts';
import { OFFICE, type DemoContext, type PlayedJob } from './context.ts';

const DEPOSIT_CENTS = 15_000;
const METHODS: Method[] = ['card', 'card', 'check', 'bank'];

export function moneyComesIn(demo: DemoContext, stage: Stage, job: PlayedJob): void {
  const { chance, terms, role } = job.plan;
  const method = chance.pick(METHODS);
  const soon = hoursAfter(stage.now(), chance.between(2, 20));
  const beforeVisit = soon < hoursAfter(job.startsAt, -1) ? soon : hoursAfter(job.startsAt, -1);
  const afterVisit = minutesAfter(job.endsAt, chance.between(5, 40));
  const late = chance.odds(role === 'none' ? 0.1 : 0);
  const never = chance.odds(role === 'none' ? 0.2 : 0);
  if (terms === 'due_at_booking') stage.at(beforeVisit, pays(job, 'all', method));
  else if (terms === 'deposit') {
    stage.at(beforeVisit, pays(job, DEPOSIT_CENTS, 'card'));
    stage.at(
      minutesAfter(job.startsAt, 9),
      async (later) => void (await later.act(SERVICE, earnDeposit, { jobId: job.jobId, partyId: job.caller.payerId })),
    );
    stage.at(afterVisit, pays(job, 'all', method));
  } else if (terms === 'due_at_visit') {
    if (job.number % 29 === 3) stage.at(hoursAfter(job.endsAt, 0.02), courtesy(job));
    if (never) stage.at(officeHour(demo, hoursAfter(job.endsAt, 24 * 50)), letsGo(job));
    if (!late) stage.at(afterVisit, pays(job, 'all', method));
    else if (!never) stage.at(officeHour(demo, hoursAfter(job.endsAt, 24 * chance.between(4, 12))), pays(job, 'all', 'check'));
  } else if (!never) stage.at(officeHour(demo, hoursAfter(job.endsAt, 24 * chance.between(12, 34))), pays(job, 'all', 'bank'));
}

/** Mid-morning of that day: the office enters the mail. */
const officeHour = (demo: DemoContext, at: Date): Date => demo.calendar.at(dayOf(at), 10, 20);

const pays =
  (job: PlayedJob, cents: number | 'all', method: Method): Scene =>
  async (stage) => {
    const invoice = (await findInvoice(stage.reader, job.invoiceId))!;
    const open = invoice.balanceCents;
    if (invoice.state !== 'issued' || open <= 0) return;
    const reference = method === 'check' ? `${2_000 + ((job.number * 7) % 900)}` : method === 'card' ? `C${job.number}` : `T${job.number}`;
    const id = stage.newId();
    await stage.act(OFFICE, recordPayment, {
      id,
      invoiceId: job.invoiceId,
      method,
      reference,
      cents: cents === 'all' ? open : Math.min(cents, open),
      receivedOn: dayOf(stage.now()),
    });
    if (method === 'check' && stage.now() > job.endsAt && job.number % 13 === 2)
      stage.at(hoursAfter(stage.now(), 24 * 4), checkComesBack(job, id));
  };
