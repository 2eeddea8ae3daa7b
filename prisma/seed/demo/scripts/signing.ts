// Clients read and sign the agreement on their private link, each at their own time.
import { formatWord } from '@backsight/domain/agreements/signing';
import { newestAgreement, signersOf } from '@backsight/store/agreements';
import { findJob } from '@backsight/store/jobs/jobs';
import { signAsClient } from '@backsight/usecases/agreements/signByLink';
import { logContact } from '@backsight/usecases/mail/contacts';
import { remindToSign } from '@backsight/usecases/mail/remind';
import { hoursAfter, minutesAfter } from '../calendar.ts';
import { linkOf } from '../memory/mailLink.ts';
import { valueOf, type Scene, type Stage } from '../stage.ts';
import { OFFICE, type DemoContext, type PlayedJob } from './context.ts';
import { moreIsLearned, signsOtherwise } from './signingStates.ts';

const DEVICES = ['phone', 'laptop', 'tablet'];

/** Every client signs before the visit, except where the plan lets the visit start without. */
export function clientsSign(demo: DemoContext, stage: Stage, job: PlayedJob): void {
  if (job.plan.role === 'override' || signsOtherwise(demo, stage, job)) return;
  moreIsLearned(demo, stage, job);
  const { publicUrl } = demo;
  const { chance } = job.plan;
  const slow = chance.odds(0.12);
  job.caller.clients.forEach(({ id }, at) => {
    const wanted = slow ? hoursAfter(job.startsAt, -3) : minutesAfter(stage.now(), chance.between(25, 60 * 22) + at * 130);
    const latest = minutesAfter(job.startsAt, -40 - at * 5);
    const signsAt = wanted < latest ? wanted : latest;
    stage.at(signsAt, signs(job.jobId, id, chance.pick(DEVICES)));
    if (slow) isReminded({ publicUrl, jobId: job.jobId, partyId: id, signsAt }, stage);
  });
}

const REMINDED_AFTER_HOURS = 48;

/** Who takes long is reminded by the service, and called by the office an hour later, which leaves word. */
function isReminded(
  { publicUrl, jobId, partyId, signsAt }: { publicUrl: string; jobId: string; partyId: string; signsAt: Date },
  stage: Stage,
): void {
  const when = hoursAfter(stage.now(), REMINDED_AFTER_HOURS);
  if (hoursAfter(when, 2) >= signsAt) return;
  stage.at(when, async (later) => {
    const signer = await unsigned(later, jobId, partyId);
    if (signer) await later.runner.run(remindToSign, { signerId: signer.id, publicUrl }, { actor: { kind: 'service' } });
  });
  stage.at(hoursAfter(when, 1), async (later) => {
    if (!(await unsigned(later, jobId, partyId))) return;
    const contact = { channel: 'call', outcome: 'left_word', words: 'Asked to sign; the link is in the mail.', happenedAt: null } as const;
    await later.act(OFFICE, logContact, { id: later.newId(), jobId, callbackId: null, partyId, ...contact });
  });
}

async function unsigned(stage: Stage, jobId: string, partyId: string) {
  const agreement = await newestAgreement(stage.reader, jobId);
  if (!agreement || (await findJob(stage.reader, jobId))?.state !== 'booked') return null;
  const signer = (await signersOf(stage.reader, agreement.id)).find((one) => one.partyId === partyId);
  return signer && signer.signature === null && signer.email ? signer : null;
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
    const input = {
      token,
      name: signer.name,
      read: true,
      consent: true,
      sha256: agreement.sha256,
      word: formatWord(agreement.sha256, signer.id),
      strokes: '',
      interpreter: '',
      device,
      ip: '192.0.2.10',
      directory: null,
    };
    valueOf(await signAsClient({ reader: stage.reader, runner: stage.runner, now: stage.now() }, input), 'a signature');
  };
