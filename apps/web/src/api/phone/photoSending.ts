// Tells the service the photos, behind the entries that name them: one at a time, as often as it takes.
import { asProblem, type ProblemError } from '../problemError.ts';
import { sendPhoto } from '../photos.ts';
import { deviceOf, rowsOf } from './outbox.ts';
import { changePhoto, forgetPhoto, keptPhotos, photoWaits } from './photos.ts';
import type { KeptPhoto } from './store.ts';

let running: Promise<void> | null = null;

/** Sends what waits for a person; `onStored` hears of each record to which the service has added one. Failing leaves everything kept. */
export function sendPhotos(personId: string, onStored: (recordId: string) => void): Promise<void> {
  running ??= alone(() => sendAll(personId, onStored)).finally(() => {
    running = null;
  });
  return running;
}

const alone = (work: () => Promise<void>): Promise<void> => (navigator.locks ? navigator.locks.request('backsight-photos', work) : work());

/** The next one whose entry the service has. */
function nextOf(personId: string): KeptPhoto | undefined {
  const unsent = new Set(rowsOf(personId).flatMap(({ id, state }) => (state === 'stored' ? [] : [id])));
  return keptPhotos().find((photo) => photo.personId === personId && photoWaits(photo) && !unsent.has(photo.entryId!));
}

const isFinal = ({ status }: ProblemError): boolean => status >= 400 && status < 500 && ![401, 408, 425, 429].includes(status);

async function sendAll(personId: string, onStored: (recordId: string) => void): Promise<void> {
  for (;;) {
    const photo = nextOf(personId);
    if (!photo) return;
    try {
      await sendPhoto(photo, await deviceOf(personId));
      onStored(photo.recordId);
      await forgetPhoto(photo.id);
    } catch (error) {
      const problem = asProblem(error)!;
      if (!isFinal(problem)) return;
      await changePhoto(photo.id, { state: 'refused', why: problem.message });
    }
  }
}
