// Tells the service the photos and spoken notes, behind the entries that name them: one at a time, as often as it takes.
import { asProblem, type ProblemError } from '../problemError.ts';
import { sendFile } from '../photos.ts';
import { deviceOf, rowsOf } from './outbox.ts';
import { changePhoto, forgetPhoto, keptFiles, photoWaits } from './photos.ts';
import type { KeptPhoto, KeptSpoken } from './store.ts';

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
function nextOf(personId: string): KeptPhoto | KeptSpoken | undefined {
  const unsent = new Set(rowsOf(personId).flatMap(({ id, state }) => (state === 'stored' ? [] : [id])));
  return keptFiles().find((file) => file.personId === personId && photoWaits(file) && !unsent.has(file.entryId!));
}

const isFinal = ({ status }: ProblemError): boolean => status >= 400 && status < 500 && ![401, 408, 425, 429].includes(status);

async function sendAll(personId: string, onStored: (recordId: string) => void): Promise<void> {
  for (;;) {
    const file = nextOf(personId);
    if (!file) return;
    try {
      await sendFile(file, await deviceOf(personId));
      onStored(file.recordId);
      await forgetPhoto(file.id);
    } catch (error) {
      const problem = asProblem(error)!;
      if (!isFinal(problem)) return;
      await changePhoto(file.id, { state: 'refused', why: problem.message });
    }
  }
}
