// Mails a client a fresh private link, so that a problem is reported in writing and with photos. The link before it ends.
import { linkEnds } from '@backsight/domain/agreements/signers';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { lockSigner, newestAgreement, signersOf, updateSigner } from '@backsight/store/agreements';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import { isCancelled } from './clientPage.ts';
import { newToken } from './steps/digest.ts';
import { sendLetter } from '../mail/steps/letter.ts';
import type { Act } from '../run.ts';

type Input = { jobId: string; partyId: string; publicUrl: string };

/** Only who signs the agreement has a link: it opens that person's own page. Refusals: no-link-without-agreement, appointment-cancelled, mail-no-address. */
export const sendReportLink: Act<Input, { id: string }> = {
  operation: 'agreements.send-report-link',
  run: async (work, { jobId, partyId, publicUrl }) => {
    const agreement = await newestAgreement(work.tx, jobId);
    const found = agreement && (await signersOf(work.tx, agreement.id)).find((one) => one.partyId === partyId);
    if (!found) return refuse('no-link-without-agreement', {}, 'partyId');
    if (await isCancelled(work.tx, jobId)) return refuse('appointment-cancelled');
    if (!found.email) return refuse('mail-no-address', { name: found.name }, 'partyId');
    await lockSigner(work.tx, found.id);
    const job = (await findJobForAgreement(work.tx, jobId))!;
    const { token, tokenHash } = newToken();
    const tokenEndsAt = linkEnds(job.visit ? new Date(job.visit.endsAt) : null, work.now);
    await updateSigner(work.tx, found.id, { tokenHash, tokenEndsAt, sentAt: work.now, revokedAt: null });
    await sendLetter(work, {
      kind: 'report_link',
      messageKey: `report-link:${found.id}:${work.newId()}`,
      to: { name: found.name, email: found.email },
      values: {
        ...{ firm: job.firm, firm_phone: job.firmPhone, address: job.address, job: String(job.number) },
        link: `${publicUrl}/client/${token}/report`,
      },
      about: { kind: 'job', id: jobId },
      urgent: true,
    });
    await work.did('signer', found.id, { reportLink: true });
    return accept({ id: found.id });
  },
};
