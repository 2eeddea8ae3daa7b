// Remembers that the session ended while a screen was open, so that one may sign in again without leaving it.
let asked = false;
const listeners = new Set<() => void>();

const set = (value: boolean): void => {
  asked = value;
  for (const listener of listeners) listener();
};

export const askToSignIn = (): void => set(true);
export const signedInAgain = (): void => set(false);
export const isAsked = (): boolean => asked;

export function onAsked(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
