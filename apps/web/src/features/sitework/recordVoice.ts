// Records a spoken note. It is written to this phone every few seconds while it is spoken: a browser that is killed loses only the last of them.
import { newId } from '../../api/ids.ts';
import { keepFile } from '../../api/phone/photos.ts';
import type { TakenAt } from '../../api/phone/takePhoto.ts';
import { isSpeaking, speak, type Voice } from './voice.ts';

/** What the service takes at most; a little less in bytes, since the last piece comes after the stop. */
export const MOST_SECONDS = 180;
const MOST_BYTES = 1_900_000;
const PIECE_MS = 3000;
let starting = false;
/** Speech needs no more; three minutes are 720 KB. */
const BITS = 32_000;
/** The first that a browser records: WebM on most, MP4 on an iPhone. */
const KINDS = ['audio/webm;codecs=opus', 'audio/mp4', 'audio/ogg;codecs=opus'];

const INSTEAD = 'Write the note, or press the microphone key of your keyboard. Nothing is lost.';
const WHY: Record<string, string> = {
  NotAllowedError: `The microphone is not allowed here. Allow it for this page in the settings of the browser. ${INSTEAD}`,
  NotFoundError: `No microphone was found. ${INSTEAD}`,
  NotReadableError: `Another app uses the microphone. End it, or: ${INSTEAD}`,
};
const CANNOT = `This browser cannot record sound here. ${INSTEAD}`;
const FULL = "This phone's store is full: what was said last is not kept. Send what waits on it first.";

/** Opens the microphone and begins. Answers what is wrong, in words; null when it runs. `then` hears how it ended, null being well. */
export async function startVoice(at: TakenAt, then: (problem: string | null) => void): Promise<string | null> {
  if (isSpeaking() || starting) return null;
  if (typeof MediaRecorder === 'undefined' || !navigator.mediaDevices) return CANNOT;
  starting = true;
  try {
    const microphone = await navigator.mediaDevices.getUserMedia({ audio: { channelCount: 1 } });
    const mimeType = KINDS.find((kind) => MediaRecorder.isTypeSupported(kind));
    const recorder = new MediaRecorder(microphone, { ...(mimeType ? { mimeType } : {}), audioBitsPerSecond: BITS });
    const voice = { id: newId(), place: at.place, since: Date.now() };
    const ended = kept(recorder, at, voice).finally(() => {
      microphone.getTracks().forEach((track) => track.stop());
      speak(null);
    });
    void ended.then(then);
    recorder.start(PIECE_MS);
    speak({ voice, recorder, ended });
    return null;
  } catch (error) {
    return WHY[(error as Error).name] ?? CANNOT;
  } finally {
    starting = false;
  }
}

/** Writes every piece behind the one before, until the recorder stops: by a press, a limit, or because the microphone is taken away. */
function kept(recorder: MediaRecorder, at: TakenAt, { id, since }: Voice): Promise<string | null> {
  const pieces: Blob[] = [];
  const takenAt = new Date(since).toISOString();
  let written: Promise<void> = Promise.resolve();
  const stop = (): void => void (recorder.state !== 'inactive' && recorder.stop());
  const limit = setTimeout(stop, MOST_SECONDS * 1000);
  const write = (): Promise<void> => {
    const seconds = Math.min(MOST_SECONDS, Math.max(1, Math.round((Date.now() - since) / 1000)));
    const original = new Blob(pieces, { type: recorder.mimeType });
    if (original.size > MOST_BYTES) stop();
    return keepFile({ ...at, id, entryId: null, takenAt, seconds, original, state: 'taken' });
  };
  return new Promise((done) => {
    recorder.addEventListener('dataavailable', ({ data }) => {
      if (data.size === 0) return;
      pieces.push(data);
      written = written.then(write);
      written.catch(stop);
    });
    recorder.addEventListener('stop', () => {
      clearTimeout(limit);
      const nothing = `Nothing was recorded. ${INSTEAD}`;
      written.then(
        () => done(pieces.length === 0 ? nothing : null),
        () => done(FULL),
      );
    });
  });
}
