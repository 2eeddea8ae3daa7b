// Speaking instead of typing, where the browser can turn speech into words. Nothing is recorded by us: what is heard goes to the device's own service.
// The names of its parts (transcript, isFinal) are those of the Web Speech API (W3C Web Incubator Community Group).

type Heard = { results: ArrayLike<ArrayLike<{ transcript: string }> & { isFinal: boolean }>; resultIndex: number };
type Recognizer = {
  lang: string;
  continuous: boolean;
  onresult: ((heard: Heard) => void) | null;
  onerror: ((event: { error: string }) => void) | null;
  onend: (() => void) | null;
  start: () => void;
  stop: () => void;
};
type Kind = new () => Recognizer;

const kind = (): Kind | undefined => {
  const names = window as unknown as { SpeechRecognition?: Kind; webkitSpeechRecognition?: Kind };
  return names.SpeechRecognition ?? names.webkitSpeechRecognition;
};

export const canListen = (): boolean => kind() !== undefined;

const KEYBOARD = 'Press the microphone key of your keyboard instead, or type.';
const WHY: Record<string, string> = {
  'not-allowed': `The microphone is not allowed here. ${KEYBOARD}`,
  'service-not-allowed': `The microphone is not allowed here. ${KEYBOARD}`,
  'audio-capture': `No microphone was found. ${KEYBOARD}`,
  network: `This phone needs a signal to turn speech into words. ${KEYBOARD}`,
  'no-speech': 'Nothing was heard. Press again and speak close to the phone.',
};

/** Listens until `stop` of what it returns, or until the device ends it: each phrase as it is understood, and at the end why there was none. */
export function listen(on: { phrase: (words: string) => void; end: (problem: string | null) => void }): { stop: () => void } {
  const recognizer = new (kind()!)();
  let problem: string | null = null;
  recognizer.lang = 'en-US';
  recognizer.continuous = true;
  recognizer.onresult = ({ results, resultIndex }) => {
    for (let at = resultIndex; at < results.length; at += 1) if (results[at]!.isFinal) on.phrase(results[at]![0]!.transcript.trim());
  };
  recognizer.onerror = ({ error }) => {
    if (error !== 'aborted') problem = WHY[error] ?? `That did not work. ${KEYBOARD}`;
  };
  recognizer.onend = () => on.end(problem);
  recognizer.start();
  return { stop: () => recognizer.stop() };
}
