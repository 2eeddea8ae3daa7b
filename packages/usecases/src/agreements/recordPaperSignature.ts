// Records a signature that was given on paper, or on the pair's own device at the door; a device without signal sends it later.
import { decideSigning, formatWord, signedAt } from '@backsight/domain/agreements/signing';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findAgreement, findSigner, lockAgreementOfJob, lockSigner, type AgreementRow, type SignerRow } from '@backsight/store/agreements';
import { isOnJob } from '@backsight/store/agreements/job';
import { isCancelled } from './clientPage.ts';
import type { Act, Actor, Work } from '../run.ts';
import { keepProof, type Upload } from './steps/keepProof.ts';
import { writeSignature, type SigningProof } from './steps/sign.ts';

export type PaperInput = {
  id: string;
  signerId: string;
  method: 'paper' | 'on_site_device';
  name: string;
  read: boolean;
  consent: boolean;
  /** Digest of the words that the device showed; empty on paper. */
  sha256: string;
  word: string;
  strokes: string;
  interpreter: string;
  photo: Upload | null;
  keptWhere: string;
  /** When it was signed by the clock of a device that had no signal. */
  signedAt: string | null;
  device: string;
  /** Where the service keeps its files; null: nowhere, and no photo is kept. */
  directory: string | null;
};
/** `late`: a newer agreement took the place of the one that was signed; the signature is kept, and the newest still needs one. */
type Recorded = { id: string; late: boolean };

export const recordPaperSignature: Act<PaperInput, Recorded> = { operation: 'agreements.sign_on_site', run: record };

async function mayRecord(work: Work, jobId: string, actor: Actor): Promise<boolean> {
  if (actor.kind !== 'person') return false;
  return actor.roles.some((role) => role !== 'inspector') || isOnJob(work.tx, jobId, actor.id);
}

async function record(work: Work, input: PaperInput): Promise<Outcome<Recorded>> {
  const seen = await findSigner(work.tx, input.signerId);
  if (!seen) return refuse('not-found', { thing: 'signer' });
  if (!(await mayRecord(work, seen.jobId, work.actor))) return refuse('not-your-visit');
  await lockAgreementOfJob(work.tx, seen.jobId);
  if (await isCancelled(work.tx, seen.jobId)) return refuse('appointment-cancelled');
  await lockSigner(work.tx, seen.id);
  const signer = (await findSigner(work.tx, seen.id))!;
  if (signer.signature) return refuse('signed-already');
  const agreement = (await findAgreement(work.tx, signer.agreementId))!;
  const given = input.method === 'paper' ? await onPaper(work, input) : onDevice(signer, agreement, input);
  if (!given.ok) return given;
  const { late } = await writeSignature(work, signer, agreement, {
    ...given.value,
    id: input.id,
    method: input.method,
    ip: null,
    linkHash: '',
    happenedAt: signedAt(input.signedAt === null ? null : new Date(input.signedAt), agreement.issuedAt, work.now),
    directory: input.directory,
  });
  return accept({ id: input.id, late });
}

type Given = Pick<SigningProof, 'name' | 'consent' | 'formatWord' | 'strokes' | 'interpreter' | 'device' | 'photoSha256' | 'keptWhere'>;

/** The paper is photographed on the spot, or it is said where it is kept. */
async function onPaper(work: Work, input: PaperInput): Promise<Outcome<Given>> {
  const keptWhere = input.keptWhere.trim();
  if (!input.photo && keptWhere === '') return refuse('paper-proof-missing', {}, 'photo');
  const photo =
    input.photo && input.directory !== null ? await keepProof(work, input.directory, input.photo, 'photo.base64') : accept(null);
  if (!photo.ok) return photo;
  const interpreter = input.interpreter.trim() || null;
  return accept({
    name: input.name,
    consent: false,
    formatWord: '',
    strokes: null,
    interpreter,
    device: 'paper',
    photoSha256: photo.value,
    keptWhere,
  });
}

function onDevice(signer: SignerRow, agreement: AgreementRow, input: PaperInput): Outcome<Given> {
  const word = formatWord(agreement.sha256, signer.id);
  const decided = decideSigning({ sha256: agreement.sha256, word }, input);
  if (!decided.ok) return decided;
  return accept({ ...decided.value, consent: true, formatWord: word, device: input.device, photoSha256: null, keptWhere: '' });
}
