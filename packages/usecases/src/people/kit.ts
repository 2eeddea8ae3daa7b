// Kit: adds a piece, notes a calibration or a check, takes a piece out of service and back; one that failed on site is out at once.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { mayAddPiece, mayNoteCheck, type CheckKind, type Size } from '@backsight/domain/people/kit';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { goesToJobOf } from '@backsight/store/ownJobs';
import {
  findKitItem,
  findKitKind,
  listKitChecks,
  listKitKinds,
  saveKitCheck,
  saveKitItem,
  setCheckNeeds,
  setSizes,
  updateKitItem,
  type KitEdit,
  type KitItemRow,
} from '@backsight/store/people/kit';
import { findPerson } from '@backsight/store/people';
import { lockDays } from '@backsight/store/schedule/visits';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import { onlyOwn } from '../jobs/steps/onlyOwn.ts';
import type { Act, Work } from '../run.ts';

export type KitInput = Omit<KitItemRow, 'name' | 'endedOn'>;

export const addKit: Act<KitInput, { id: string }> = { operation: 'people.add-kit', run: add };

async function add(work: Work, input: KitInput): Promise<Outcome<{ id: string }>> {
  const kind = await findKitKind(work.tx, input.kind);
  if (!kind) return refuse('not-found', { thing: 'kind of kit' }, 'kind');
  if (kind.calibrated && input.calibratedUntil === null) return refuse('kit-calibration-missing', {}, 'calibratedUntil');
  const fits = mayAddPiece(kind, input.size);
  if (!fits.ok) return fits;
  await saveKitItem(work.tx, kind.worn ? input : { ...input, size: null });
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

/** Days ahead that are booked one after the other with taking a piece out. */
const LOCKED_DAYS = 60;

async function takeOut(work: Work, item: KitItemRow, today: string): Promise<void> {
  const days = Array.from({ length: LOCKED_DAYS }, (_, n) => ({ kind: item.kind, day: shiftDay(today, n) }));
  await lockDays(work.tx, { people: [], kit: days });
  await updateKitItem(work.tx, item.id, { endedOn: today });
}

export type CheckInput = { id: string; itemId: string; checkKind: CheckKind; onDay: string; passed: boolean; note: string };

/** Notes a check with its day; a piece that did not pass is out of service from today. */
export const noteCheck: Act<CheckInput, { id: string; out: boolean }> = { operation: 'people.note-kit-check', run: check };

async function check(work: Work, input: CheckInput): Promise<Outcome<{ id: string; out: boolean }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const item = await findKitItem(work.tx, input.itemId);
  if (!item) return refuse('not-found', { thing: 'piece of kit' });
  if (item.endedOn !== null) return refuse('kit-out-of-service');
  const { today } = await localDay(work.tx, work.now);
  const needed = (await listKitChecks(work.tx, item.id)).map(({ checkKind }) => checkKind);
  const may = mayNoteCheck(needed, input.checkKind, input.onDay, today);
  if (!may.ok) return may;
  await saveKitCheck(work.tx, { ...input, byId: work.actor.id, visitId: null, recordedAt: work.now });
  if (!input.passed) await takeOut(work, item, today);
  await work.did('kit-item', item.id, { checkKind: input.checkKind, onDay: input.onDay, passed: input.passed });
  return accept({ id: input.id, out: !input.passed });
}

export type FailureInput = { id: string; itemId: string; note: string; visitId: string | null };

/** A piece failed on site: it is out of service at once, so that nobody else is sent with it. */
export const failOnSite: Act<FailureInput, { id: string }> = { operation: 'people.fail-kit', run: fail };

async function fail(work: Work, { id, itemId, note, visitId }: FailureInput): Promise<Outcome<{ id: string }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const item = await findKitItem(work.tx, itemId);
  if (!item) return refuse('not-found', { thing: 'piece of kit' });
  if (item.endedOn !== null) return refuse('kit-out-of-service');
  const own = onlyOwn(work.actor);
  if (own !== null && visitId !== null && (await goesToJobOf(work.tx, 'visit', visitId, own)) === false) return refuse('not-on-this-visit');
  const { today } = await localDay(work.tx, work.now);
  await saveKitCheck(work.tx, {
    id,
    itemId,
    checkKind: 'on_site',
    onDay: today,
    passed: false,
    note,
    byId: work.actor.id,
    visitId,
    recordedAt: work.now,
  });
  await takeOut(work, item, today);
  await work.did('kit-item', itemId, { failedOnSite: true, visitId });
  return accept({ id });
}

export type NeedsInput = { kind: string; checks: { checkKind: CheckKind; everyDays: number }[] };

/** Sets which checks a kind of kit needs, and how often. */
export const changeCheckNeeds: Act<NeedsInput, { kind: string }> = {
  operation: 'people.change-kit-checks',
  run: async (work, { kind, checks }) => {
    if (!(await findKitKind(work.tx, kind))) return refuse('not-found', { thing: 'kind of kit' });
    await setCheckNeeds(work.tx, kind, checks);
    await work.did('firm', FIRM_THING, { kitKind: kind, checks: checks.map(({ checkKind, everyDays }) => `${checkKind} ${everyDays}`) });
    return accept({ kind });
  },
};

export type SizesInput = { personId: string; sizes: { kind: string; size: Size | null }[] };

/** The sizes in which a person wears kit; null where none is on file. */
export const changeSizes: Act<SizesInput, { id: string }> = {
  operation: 'people.change-sizes',
  run: async (work, { personId, sizes }) => {
    if (!(await findPerson(work.tx, personId))) return refuse('not-found', { thing: 'person' });
    const worn = (await listKitKinds(work.tx)).filter((kind) => kind.worn).map(({ key }) => key);
    if (sizes.some(({ kind }) => !worn.includes(kind))) return refuse('kit-not-worn', {}, 'sizes');
    await setSizes(work.tx, personId, sizes);
    await work.did('person', personId, { sizes: sizes.map(({ kind, size }) => `${kind} ${size ?? 'not known'}`) });
    return accept({ id: personId });
  },
};
