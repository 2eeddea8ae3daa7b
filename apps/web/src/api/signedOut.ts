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

let signIns = 0;
/** How often somebody signed in here: a no to what was asked before the last time says nothing about the session of now. */
export const signInsSoFar = (): number => signIns;
export const noteSignIn = (): void => void signIns++;

export function onAsked(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
