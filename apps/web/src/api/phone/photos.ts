// Photos taken on this phone: kept here as they were taken until the service has them, also when the browser is killed meanwhile.
import { useSyncExternalStore } from 'react';
import { phone, SURE, type KeptPhoto } from './store.ts';

let photos: readonly KeptPhoto[] = [];
const listeners = new Set<() => void>();
const others = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('backsight-photos');

/** Reads again what is kept, for everybody who looks at it; other windows of this browser are told. */
export async function reloadPhotos(tellOthers = true): Promise<void> {
  photos = (await (await phone()).getAll('photos')).sort((a, b) => (a.takenAt < b.takenAt ? -1 : 1));
  for (const tell of listeners) tell();
  if (tellOthers) others?.postMessage('changed');
}
others?.addEventListener('message', () => void reloadPhotos(false));

const subscribe = (tell: () => void): (() => void) => {
  listeners.add(tell);
  return () => listeners.delete(tell);
};
const all = (): readonly KeptPhoto[] => photos;

/** What this phone keeps of everybody; a screen shows only its own person's. */
export const useKeptPhotos = (): readonly KeptPhoto[] => useSyncExternalStore(subscribe, all);
export const keptPhotos = all;
/** Recorded, and not with the service yet. */
export const photoWaits = ({ state }: KeptPhoto): boolean => state === 'waiting';

/** Takes a photo off this phone. */
export async function forgetPhoto(id: string): Promise<void> {
  await (await phone()).delete('photos', id);
  await reloadPhotos();
}

/** Changes a photo that is still there. */
export async function changePhoto(id: string, change: Partial<KeptPhoto>): Promise<void> {
  const tx = (await phone()).transaction('photos', 'readwrite', SURE);
  const photo = await tx.store.get(id);
  if (photo) await tx.store.put({ ...photo, ...change });
  await tx.done;
  await reloadPhotos();
}
