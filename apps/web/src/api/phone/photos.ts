// Photos and spoken notes taken on this phone: kept here as they were taken until the service has them, also when the browser is killed meanwhile.
import { useSyncExternalStore } from 'react';
import { phone, SURE, type KeptFile, type KeptPhoto, type KeptSpoken } from './store.ts';

type Kept = { files: readonly (KeptPhoto | KeptSpoken)[]; photos: readonly KeptPhoto[]; spoken: readonly KeptSpoken[] };
let kept: Kept = { files: [], photos: [], spoken: [] };
const listeners = new Set<() => void>();
const others = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('backsight-photos');

const isSpoken = (file: KeptPhoto | KeptSpoken): file is KeptSpoken => file.seconds !== undefined;

/** Reads again what is kept, for everybody who looks at it; other windows of this browser are told. */
export async function reloadPhotos(tellOthers = true): Promise<void> {
  const files = (await (await phone()).getAll('photos')).sort((a, b) => (a.takenAt < b.takenAt ? -1 : 1));
  kept = { files, photos: files.filter((file) => !isSpoken(file)) as KeptPhoto[], spoken: files.filter(isSpoken) };
  for (const tell of listeners) tell();
  if (tellOthers) others?.postMessage('changed');
}
others?.addEventListener('message', () => void reloadPhotos(false));

const subscribe = (tell: () => void): (() => void) => {
  listeners.add(tell);
  return () => listeners.delete(tell);
};
const all = (): Kept => kept;

/** What this phone keeps of everybody; a screen shows only its own person's. */
export const useKept = (): Kept => useSyncExternalStore(subscribe, all);
export const useKeptPhotos = (): readonly KeptPhoto[] => useKept().photos;
export const keptFiles = (): Kept['files'] => kept.files;
/** Recorded, and not with the service yet. */
export const photoWaits = ({ state }: KeptFile): boolean => state === 'waiting';

/** Keeps one, or writes anew one that is kept. @throws when the phone's store is full */
export async function keepFile(file: KeptPhoto | KeptSpoken): Promise<void> {
  await (await phone()).put('photos', file);
  await reloadPhotos();
}

/** Takes one off this phone. */
export async function forgetPhoto(id: string): Promise<void> {
  await (await phone()).delete('photos', id);
  await reloadPhotos();
}

/** Changes one that is still there. */
export async function changePhoto(id: string, change: Partial<KeptFile>): Promise<void> {
  const tx = (await phone()).transaction('photos', 'readwrite', SURE);
  const file = await tx.store.get(id);
  if (file) await tx.store.put({ ...file, ...change });
  await tx.done;
  await reloadPhotos();
}
