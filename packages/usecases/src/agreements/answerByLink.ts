// A client does not sign: declines with a reason, or takes the consent to electronic records back and asks for paper. The office is told.
import { wantsPaper } from '@backsight/domain/agreements/signers';
import { decideAnswer } from '@backsight/domain/agreements/signing';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findSigner, lockAgreementOfJob, lockSigner, saveAnswer, type AnswerKind, type SignerRow } from '@backsight/store/agreements';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { updateNeed } from '@backsight/store/jobs/jobs';
import { keepText } from '@backsight/store/text';
import type { Act, Actor, Runner, Work } from '../run.ts';
import { noteRelease } from '../callbacks/steps/noteRelease.ts';
import { findByToken, isCancelled } from './clientPage.ts';

type Input = { token: string; kind: AnswerKind; reason: string };

const answerByLink: Act<Input, { kind: AnswerKind }> = { operation: 'agreements.answer', run: answer };

async function answer(work: Work, input: Input): Promise<Outcome<{ kind: AnswerKind }>> {
  const found = await findByToken(work.tx, input.token, work.now);
  if (found?.state !== 'found') return refuse('not-found', { thing: 'agreement' });
  const { jobId, jobNumber } = found.agreement;
  await lockAgreementOfJob(work.tx, jobId);
  if (await isCancelled(work.tx, jobId)) return refuse('appointment-cancelled');
  await lockSigner(work.tx, found.signer.id);
  const signer = (await findSigner(work.tx, found.signer.id))!;
  if (signer.signature && input.kind === 'declined') return refuse('signed-already');
  const decided = decideAnswer(input.kind, input.reason);
  if (!decided.ok) return decided;
  const { reason } = decided.value;
  if (saysItAlready(signer, input.kind, reason)) {
    await work.did('signer', signer.id, { again: true });
    return accept({ kind: input.kind });
  }
  const reasonTextId = await keepText(work.tx, work.newId(), reason, work.now);
  const id = work.newId();
  await saveAnswer(work.tx, { id, signerId: signer.id, kind: input.kind, reasonTextId, at: work.now });
  const { remedyId } = found.agreement;
  if (remedyId !== null) await noteRelease(work, remedyId, { kind: 'release_answered', details: { answer: input.kind } });
  if (!signer.signature && remedyId === null)
    await updateNeed(work.tx, jobId, 'signature', {
      state: input.kind === 'declined' ? 'refused' : 'open',
      details: { why: input.kind === 'declined' ? `${signer.name} declined to sign.` : `${signer.name} wants to sign on paper.` },
      at: work.now,
      by: null,
    });
  await tellOffice(work, {
    id,
    jobId,
    jobNumber,
    signer,
    kind: input.kind,
    reason,
    paper: remedyId === null ? 'agreement' : 'settlement release',
  });
  await work.did('signer', signer.id, { answered: input.kind });
  return accept({ kind: input.kind });
}

/** Pressed twice: the same answer, and nothing was signed since. */
const saysItAlready = (signer: SignerRow, kind: AnswerKind, reason: string): boolean =>
  signer.answer?.kind === kind && (signer.answer.reason ?? '') === reason && (kind === 'declined' || wantsPaper(signer));

type Told = { id: string; jobId: string; jobNumber: number; signer: SignerRow; kind: AnswerKind; reason: string; paper: string };

async function tellOffice(work: Work, t: Told): Promise<void> {
  const firm = await findFirm(work.tx);
  if (!firm?.email) return;
  const what = t.kind === 'declined' ? `declined to sign the ${t.paper}` : 'wants paper instead of electronic records';
  await work.mail({
    messageKey: `signer-answer:${t.id}`,
    toAddress: firm.email,
    toName: firm.name,
    subject: `Job ${t.jobNumber}: ${t.signer.name} ${what}`,
    body: [`${t.signer.name} ${what} of job ${t.jobNumber}.`, t.reason === '' ? 'No reason was given.' : `Reason: ${t.reason}`].join(
      '\n\n',
    ),
    aboutKind: 'job',
    aboutId: t.jobId,
    urgent: true,
  });
}

/** Answers as the client of the link. */
export async function answerAsClient(
  parts: { reader: Reader; runner: Runner; now: Date },
  input: Input,
): Promise<Outcome<{ kind: AnswerKind }>> {
  const found = await findByToken(parts.reader, input.token, parts.now);
  if (found?.state !== 'found') return refuse('not-found', { thing: 'agreement' });
  const actor: Actor = { kind: 'client', id: found.signer.partyId };
  return parts.runner.run(answerByLink, input, { actor });
}
