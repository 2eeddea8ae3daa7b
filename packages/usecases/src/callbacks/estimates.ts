// Estimates of independent contractors: recorded with their file, and opened.
import { checkEstimate } from '@backsight/domain/callbacks/estimate';
import { moveTo } from '@backsight/domain/callbacks/state';
import type { Role } from '@backsight/domain/people/roles';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findCallback, type CallbackRow } from '@backsight/store/callbacks';
import { estimateFile, saveEstimate } from '@backsight/store/callbacks/estimates';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { readStoredFile, storeFile } from '@backsight/store/sitework/files';
import { noteFile } from '@backsight/store/sitework/report';
import { certificateOf } from '../people/steps/certificate.ts';
import type { Act, Work } from '../run.ts';
import { actorId, isOwner, record, withCallback, type Done } from './steps/callback.ts';
import { dayAt } from './steps/day.ts';

export type EstimateInput = {
  id: string;
  estimateId: string;
  contractor: string;
  license: string;
  cents: number;
  scope: string;
  estimatedOn: string;
  file: { name: string; base64: string } | null;
  directory: string;
};

/** Refusals: own-repair-payee, remedy-needs-amount, in-the-future, certificate-kind, certificate-too-large. */
export const addEstimate: Act<EstimateInput, Done> = {
  operation: 'callbacks.add-estimate',
  run: (work, input) => withCallback(work, input.id, (callback) => add(work, callback, input)),
};

async function add(
  work: Work,
  callback: CallbackRow,
  { id, estimateId, file, directory, ...estimate }: EstimateInput,
): Promise<Outcome<Done>> {
  const may = moveTo(callback, 'money');
  if (!may.ok) return may;
  const [firm, job] = [(await findFirm(work.tx))!, (await findJobForCallback(work.tx, callback.jobId))!];
  const fits = checkEstimate(estimate, { firmName: firm.name, today: dayAt(work.now, job.zone) });
  if (!fits.ok) return fits;
  const kept = file === null ? accept(null) : await keepFile(work, file, directory);
  if (!kept.ok) return kept;
  await saveEstimate(work.tx, {
    ...{ ...estimate, id: estimateId, callbackId: id, fileSha256: kept.value },
    ...{ recordedBy: actorId(work.actor)!, recordedAt: work.now },
  });
  return record(work, callback, { kind: 'estimate_recorded', state: callback.state, details: { estimateId } });
}

async function keepFile(work: Work, file: { name: string; base64: string }, directory: string): Promise<Outcome<string>> {
  const sound = certificateOf(file.base64);
  if (!sound.ok) return sound;
  const { bytes, mediaType } = sound.value;
  const sha256 = await storeFile(directory, bytes);
  await noteFile(work.tx, { sha256, bytes: bytes.length, name: file.name, mediaType, at: work.now });
  return accept(sha256);
}

/** The file of an estimate. What only the owner sees does not exist for others. */
export async function readEstimateFile(
  reader: Reader,
  { id, roles, directory }: { id: string; roles: readonly Role[]; directory: string },
) {
  const found = await estimateFile(reader, id);
  const callback = found && (await findCallback(reader, found.callbackId));
  if (!found || !callback || (callback.ownerOnly && !isOwner(roles))) return refuse('not-found', { thing: 'file of an estimate' });
  return accept({ bytes: await readStoredFile(directory, found.sha256), name: found.name, mediaType: found.mediaType });
}
