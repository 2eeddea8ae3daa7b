// Keeps the app itself on the phone, so that it opens without signal.

/** Whether this address can be opened without signal: browsers allow it on https and on the machine itself only. */
export const canOpenOffline = (): boolean => window.isSecureContext && 'serviceWorker' in navigator;

/** Keeps the app, and asks the browser not to clear what is kept when the phone runs short of space. */
export async function keepApp(): Promise<void> {
  if (!canOpenOffline()) return;
  await navigator.serviceWorker.register('/sw.js').catch(() => undefined);
  await navigator.storage?.persist?.().catch(() => undefined);
}
