// Somebody went into a crawl space or attic or onto a roof and is not back in time: the partner is alerted, then the office.
import { HAZARD_PLACES } from '@backsight/domain/shared/places';
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import {} from '@backsight/domain/sitework/act';
import { OFFICE_AFTER_MINUTES, overdueFor } from '@backsight/domain/sitework/inside';
import type { Database } from '@backsight/store/database';
import { lockWatch, markTold, overdueReturns, type Overdue } from '@backsight/store/sitework/watch';
import type { Act, Runner, Work } from '../run.ts';
import { peopleInCharge } from './steps/peopleInCharge.ts';

type Told = { partner: boolean; office: boolean };

const alertReturn: Act<{ entryId: string }, Told> = { operation: 'sitework.alert-return', run: alert };

async function alert(work: Work, { entryId }: { entryId: string }): Promise<Outcome<Told>> {
  const watch = await lockWatch(work.tx, entryId);
  if (!watch) return refuse('not-found', { thing: 'return time' });
  const due = overdueFor(watch.backBy.toISOString(), work.now.getTime());
  const told = { partner: due !== 'nobody' && !watch.partnerTold, office: due === 'office' && !watch.officeTold };
  if (told.partner) await tell(work, watch, 'partner', watch.partners);
  if (told.office) await tell(work, watch, 'office', await peopleInCharge(work.tx));
  await work.did('site-record', watch.recordId, {
    overdueIn: watch.place,
    personId: watch.personId,
    partnerTold: told.partner,
    officeTold: told.office,
  });
  return accept(told);
}

async function tell(
  work: Work,
  watch: Overdue,
  whom: 'partner' | 'office',
  people: readonly { name: string; email: string }[],
): Promise<void> {
  const back = DateTime.fromJSDate(watch.backBy, { zone: watch.zone }).setLocale('en-US').toFormat('h:mm a');
  const place = HAZARD_PLACES[watch.place];
  for (const { name, email } of people)
    await work.mail({
      messageKey: `overdue:${watch.entryId}:${whom}:${email}`,
      toAddress: email,
      toName: name,
      subject: `Not back: ${watch.name}, ${place}, job ${watch.jobNumber}`,
      urgent: true,
      aboutKind: 'job',
      aboutId: watch.jobId,
      body: [
        `${watch.name} went into the ${place} at ${watch.address}, ${watch.town} and was to be back by ${back}. Nothing was heard since.`,
        `Call ${watch.phone}${whom === 'partner' ? ', call out at the opening' : ' and the partner'}. Do not go in alone after somebody who does not answer: call 911.`,
        'When everybody is out, record it on the phone, and this stops.',
      ].join('\n\n'),
    });
  await markTold(work.tx, watch.entryId, whom, work.now);
}

/** Alerts for everybody who is overdue; answers for how many. */
export async function alertReturns(parts: { database: Database; runner: Runner; clock: () => Date }): Promise<number> {
  const overdue = await overdueReturns(parts.database.read, parts.clock(), OFFICE_AFTER_MINUTES);
  for (const { entryId } of overdue) await parts.runner.run(alertReturn, { entryId }, { actor: { kind: 'service' } });
  return overdue.length;
}
