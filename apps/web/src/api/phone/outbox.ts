// Everything done on this phone that the service has not confirmed: written here first, kept per person until the service has it.
import { useSyncExternalStore } from 'react';
import type { NewEntry } from '@backsight/contract/sitework';
import { newId } from '../ids.ts';
import { reloadPhotos } from './photos.ts';
import { phone, SURE, type Device, type Row, type Told } from './store.ts';

/** An entry before this phone has counted it. */
export type UncountedEntry = Omit<NewEntry, 'deviceSeq' | 'writtenAt'>;
export type NewRow = { recordId: string; says: string; id: string } & (
  | { what: { kind: 'entry'; entry: UncountedEntry } }
  | { what: Exclude<Told, { kind: 'entry' }> }
);

let rows: readonly Row[] = [];
const listeners = new Set<() => void>();
const others = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('backsight-outbox');

/** Reads again what is kept, for everybody who looks at it; other windows of this browser are told. */
async function reload(tellOthers = true): Promise<void> {
  rows = await (await phone()).getAll('outbox');
  for (const tell of listeners) tell();
  if (tellOthers) others?.postMessage('changed');
}
others?.addEventListener('message', () => void reload(false));

/** Call once before the first screen. */
export const loadOutbox = (): Promise<void> => reload(false);

const subscribe = (tell: () => void): (() => void) => {
  listeners.add(tell);
  return () => listeners.delete(tell);
};
const all = (): readonly Row[] => rows;

/** What this phone keeps for everybody who uses it; a screen shows only its own person's rows. */
export const useOutbox = (): readonly Row[] => useSyncExternalStore(subscribe, all);
export const rowsOf = (personId: string): Row[] => rows.filter((row) => row.personId === personId);
/** Ids of what the service has said that it has. */
export const storedRows = (recordId: string): string[] =>
  rows.flatMap((row) => (row.recordId === recordId && row.state === 'stored' ? [row.id] : []));
export const isWaiting = ({ state }: Row): boolean => state === 'waiting';

/** The person's device: one id for each person and browser, and its counter. */
const counted = (known: Device | undefined, personId: string): Device => known ?? { personId, deviceId: newId(), seq: 0 };

export async function deviceOf(personId: string): Promise<string> {
  const tx = (await phone()).transaction('devices', 'readwrite', SURE);
  const device = counted(await tx.store.get(personId), personId);
  await tx.store.put(device);
  await tx.done;
  return device.deviceId;
}

/** Photos and spoken notes that an entry names. */
const filesOf = (what: NewRow['what']): readonly string[] =>
  what.kind === 'entry' ? [...(what.entry.photos ?? []), ...(what.entry.spoken ?? [])] : [];

/** Keeps acts and entries on the phone, counted in their order; sending is another step. @throws when the phone's store is full or closed */
export async function keep(personId: string, fresh: readonly NewRow[]): Promise<void> {
  const tx = (await phone()).transaction(['outbox', 'devices', 'photos'], 'readwrite', SURE);
  const devices = tx.objectStore('devices');
  const device = counted(await devices.get(personId), personId);
  const writtenAt = new Date().toISOString();
  for (const { what, ...row } of fresh) {
    if (what.kind === 'entry') device.seq += 1;
    const told: Told = what.kind === 'entry' ? { kind: 'entry', entry: { ...what.entry, writtenAt, deviceSeq: device.seq } } : what;
    await tx.objectStore('outbox').add({ ...row, personId, what: told, state: 'waiting' } as Row);
    for (const id of filesOf(what)) {
      const photo = await tx.objectStore('photos').get(id);
      if (photo?.state === 'taken') await tx.objectStore('photos').put({ ...photo, entryId: row.id, state: 'waiting' });
    }
  }
  await devices.put(device);
  await tx.done;
  await Promise.all([reload(), reloadPhotos()]);
}

/** Changes rows that are still there; null takes a row away, with the photos and spoken notes of an entry that the service would not take. */
export async function settle(changes: ReadonlyMap<number, Partial<Row> | null>): Promise<void> {
  if (changes.size === 0) return;
  const tx = (await phone()).transaction(['outbox', 'photos'], 'readwrite', SURE);
  const outbox = tx.objectStore('outbox');
  for (const [n, change] of changes) {
    const row = await outbox.get(n);
    if (row && change === null) {
      await outbox.delete(n);
      for (const id of row.state === 'refused' ? filesOf(row.what) : []) await tx.objectStore('photos').delete(id);
    } else if (row) await outbox.put({ ...row, ...change });
  }
  await tx.done;
  await Promise.all([reload(), reloadPhotos()]);
}
