// Kit: adds a piece, notes a calibration, takes a piece out of service and back.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findKitItem, findKitKind, saveKitItem, updateKitItem, type KitEdit } from '@backsight/store/people/kit';
import type { Act, Work } from '../run.ts';

export type KitInput = { id: string; officeId: string; kind: string; serial: string; calibratedUntil: string | null; note: string };

export const addKit: Act<KitInput, { id: string }> = { operation: 'people.add-kit', run: add };

async function add(work: Work, input: KitInput): Promise<Outcome<{ id: string }>> {
  const kind = await findKitKind(work.tx, input.kind);
  if (!kind) return refuse('not-found', { thing: 'kind of kit' }, 'kind');
  if (kind.calibrated && input.calibratedUntil === null) return refuse('kit-calibration-missing', {}, 'calibratedUntil');
  await saveKitItem(work.tx, input);
  await work.did('kit-item', input.id, { kind: input.kind, calibratedUntil: input.calibratedUntil });
  return accept({ id: input.id });
}

export const changeKit: Act<{ id: string; edit: KitEdit }, { id: string }> = { operation: 'people.change-kit', run: change };

async function change(work: Work, { id, edit }: { id: string; edit: KitEdit }): Promise<Outcome<{ id: string }>> {
  const item = await findKitItem(work.tx, id);
  if (!item) return refuse('not-found', { thing: 'piece of kit' });
  if (edit.calibratedUntil === null && (await findKitKind(work.tx, item.kind))?.calibrated)
    return refuse('kit-calibration-missing', {}, 'calibratedUntil');
  await updateKitItem(work.tx, id, edit);
  await work.did('kit-item', id, {
    changed: Object.keys(edit),
    calibratedUntil: edit.calibratedUntil ?? item.calibratedUntil,
    endedOn: edit.endedOn === undefined ? item.endedOn : edit.endedOn,
  });
  return accept({ id });
}
