// Parts of the record that a step needs now and then. They come right behind the first step, so that it can be read and recorded sooner.
import { lazy, Suspense, useEffect, type ComponentType, type ReactNode } from 'react';
import { whenIdle } from '../../ui/idle.ts';

const loads = {
  addItem: () => import('./AddItem.tsx'),
  contents: () => import('./Contents.tsx'),
  driveTimes: () => import('./DriveTimes.tsx'),
  entryPhotos: () => import('./EntryPhotos.tsx'),
  note: () => import('./NoteInput.tsx'),
  outcome: () => import('./Outcome.tsx'),
  photos: () => import('./PhotoTaker.tsx'),
  spoken: () => import('./SpokenTaker.tsx'),
  settle: () => import('./Settle.tsx'),
};

function later<P extends object>(load: () => Promise<ComponentType<P>>): (props: P) => ReactNode {
  const Part = lazy(async () => ({ default: await load() })) as ComponentType<P>;
  return (props) => (
    <Suspense fallback={null}>
      <Part {...props} />
    </Suspense>
  );
}

export const AddItem = later(async () => (await loads.addItem()).AddItem);
export const Contents = later(async () => (await loads.contents()).Contents);
export const DriveTimes = later(async () => (await loads.driveTimes()).DriveTimes);
export const EntryPhotos = later(async () => (await loads.entryPhotos()).EntryPhotos);
export const RefusedPhotos = later(async () => (await loads.entryPhotos()).RefusedPhotos);
export const NoteInput = later(async () => (await loads.note()).NoteInput);
export const Outcome = later(async () => (await loads.outcome()).Outcome);
export const Reason = later(async () => (await loads.outcome()).Reason);
export const PhotoTaker = later(async () => (await loads.photos()).PhotoTaker);
export const SpokenTaker = later(async () => (await loads.spoken()).SpokenTaker);
export const Settle = later(async () => (await loads.settle()).Settle);

/** Fetches them all once the first step stands: the signal may be gone before they are wanted. */
export function useLater(): void {
  useEffect(() => whenIdle(() => Object.values(loads).forEach((load) => void load().catch(() => undefined))), []);
}
