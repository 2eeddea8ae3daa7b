// The phone's own alarm: sound and vibration, without any connection; and the screen kept on while somebody is inside.

/** One call of it: three tones and a vibration. A browser that was never touched may stay silent; the screen shows it all the same. */
export function alarmOnce(): void {
  navigator.vibrate?.([400, 150, 400, 150, 400]);
  const Context = globalThis.AudioContext;
  if (!Context) return;
  const audio = new Context();
  for (const [at, hertz] of [880, 660, 880].entries()) {
    const tone = audio.createOscillator();
    tone.type = 'square';
    tone.frequency.value = hertz;
    tone.connect(audio.destination);
    tone.start(audio.currentTime + at * 0.35);
    tone.stop(audio.currentTime + at * 0.35 + 0.25);
  }
  setTimeout(() => void audio.close(), 2_000);
}

/** Keeps the screen on, where the browser can; the returned function lets it go dark again. */
export function keepAwake(): () => void {
  let lock: WakeLockSentinel | null = null;
  let over = false;
  const take = () =>
    void navigator.wakeLock
      ?.request('screen')
      .then((taken) => (over ? void taken.release() : void (lock = taken)))
      .catch(() => {}); // low battery, or not allowed: the alarm still shows when the screen is looked at
  const again = () => document.visibilityState === 'visible' && take();
  take();
  document.addEventListener('visibilitychange', again);
  return () => {
    over = true;
    document.removeEventListener('visibilitychange', again);
    void lock?.release();
  };
}
