// Danger to people was met on site: office and client hear of it at once, at any hour.
import { DateTime } from 'luxon';
import { DANGERS, type ActWords, type SiteAct } from '@backsight/domain/sitework/act';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import type { Work } from '../../run.ts';
import type { LoadedRecord } from './loadRecord.ts';
import { peopleInCharge } from './peopleInCharge.ts';

type Met = { id: string; act: Extract<SiteAct, { do: 'danger' }>; words: ActWords; at: Date };

export async function tellOfDanger(work: Work, { visit }: LoadedRecord, met: Met): Promise<void> {
  const job = await findJobForAgreement(work.tx, visit.jobId);
  if (!job) return;
  const at = DateTime.fromJSDate(met.at, { zone: job.zone }).setLocale('en-US').toFormat('h:mm a');
  const house =
    met.act.house === 'told'
      ? `The people in the house were told${met.words.house ? `: ${met.words.house}` : ''}.`
      : 'Nobody else was in the house.';
  const called = met.act.called ? `Called: ${met.words.called ?? 'yes'}.` : 'Nobody was called yet.';
  const head = `${DANGERS[met.act.what]} at ${visit.address}, ${visit.town}, noticed at ${at}.`;
  const about = { aboutKind: 'job', aboutId: visit.jobId, urgent: true };
  for (const { id, name, email } of await peopleInCharge(work.tx))
    await work.mail({
      ...about,
      messageKey: `danger:${met.id}:${id}`,
      toAddress: email,
      toName: name,
      subject: `Danger on site: job ${visit.jobNumber}`,
      body: [head, 'The pair left the house.', house, called, met.words.note ?? ''].filter((line) => line !== '').join('\n'),
    });
  for (const { partyId, name, email, role } of job.parties)
    if (role === 'client' && email !== null)
      await work.mail({
        ...about,
        messageKey: `danger:${met.id}:${partyId}`,
        toAddress: email,
        toName: name,
        subject: `Danger at ${visit.address}: please keep people out`,
        body: [
          `Dear ${name},`,
          `our inspectors met a danger to people and left: ${DANGERS[met.act.what]}, at ${at}. ${house} ${called}`,
          'Please let nobody go in until the fire department, the utility or a licensed contractor says that it is safe. In an emergency call 911.',
          `We call you. You reach us at ${job.firmPhone}.`,
          job.firm,
        ].join('\n\n'),
      });
}
