// How the service ends with its process.

/** Longer than any transaction takes. */
const LONGEST_END_MS = 40_000;

/** Ends with a signal, and also when npm, which swallows signals, has gone; a second signal does not wait for what is under way. */
export function stopWithProcess(stop: () => Promise<void>, drainSeconds: number, say: (line: string) => void): void {
  let stopping = false;
  const end = async (again = false) => {
    if (stopping && again) process.exit(1);
    if (stopping) return;
    stopping = true;
    setTimeout(() => process.exit(1), drainSeconds * 1000 + LONGEST_END_MS).unref();
    await stop();
    say('stopped');
    process.exit(0);
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => void end(true));
  if (process.env.npm_lifecycle_event && process.platform !== 'win32') {
    const parent = process.ppid;
    setInterval(() => process.ppid !== parent && void end(), 300).unref();
  }
}
