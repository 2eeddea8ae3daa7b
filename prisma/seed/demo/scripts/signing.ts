// Clients read and sign the agreement on their private link, each at their own time.
import { newestAgreement, signersOf } from '@backsight/store/agreements';
import { findJob } from '@backsight/store/jobs/jobs';
import { signAsClient } from '@backsight/usecases/agreements/signByLink';
import { hoursAfter, minutesAfter } from '../calendar.ts';
import { linkOf } from '../memory/mailLink.ts';
import { valueOf, type Scene, type Stage } from '../stage.ts';
import type { PlayedJob } from './context.ts';

const DEVICES = ['phone', 'laptop', 'tablet'];

/** Every client signs before the visit, except where the plan lets the visit start without. */
export function clientsSign(stage: Stage, job: PlayedJob): void {
  if (job.plan.role === 'override') return;
  const { chance } = job.plan;
  const slow = chance.odds(0.12);
  job.caller.clients.forEach(({ id }, at) => {
    const wanted = slow ? hoursAfter(job.startsAt, -3) : minutesAfter(stage.now(), chance.between(25, 60 * 22) + at * 130);
    const latest = minutesAfter(job.startsAt, -40 - at * 5);
    stage.at(wanted < latest ? wanted : latest, signs(job.jobId, id, chance.pick(DEVICES)));
  });
}

const signs =
  (jobId: string, partyId: string, device: string): Scene =>
  async (stage) => {
    const state = (await findJob(stage.reader, jobId))?.state;
    const agreement = await newestAgreement(stage.reader, jobId);
    if (!agreement || state !== 'booked') return;
    const signer = (await signersOf(stage.reader, agreement.id)).find((one) => one.partyId === partyId);
    if (!signer || signer.signature !== null) return;
    const token = await linkOf(stage.reader, signer.id);
    const input = { token, name: signer.name, read: true, consent: true, sha256: agreement.sha256, device, ip: '192.0.2.10' };
    valueOf(await signAsClient({ reader: stage.reader, runner: stage.runner }, input), 'a signature');
  };
