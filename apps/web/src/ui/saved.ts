// A short word at the edge of the screen that something was done.
const FOCUS_AFTER_MS = 150;
const SHOWN_MS = 5000;

export type SavedWord = { id: number; message: string };
let words: readonly SavedWord[] = [];
let last = 0;
const listeners = new Set<() => void>();

function change(next: readonly SavedWord[]): void {
  words = next;
  for (const listener of listeners) listener();
}

/** What was pressed may be gone by then: the keyboard goes on from the page, not from nowhere. */
const keepFocus = (): void => {
  if (document.activeElement === null || document.activeElement === document.body) document.getElementById('main')?.focus();
};

export const closeWord = (id: number): void => change(words.filter((word) => word.id !== id));

export function saved(message: string): void {
  setTimeout(keepFocus, FOCUS_AFTER_MS);
  const id = ++last;
  change([...words, { id, message }]);
  setTimeout(() => closeWord(id), SHOWN_MS);
}

export const savedWords = (): readonly SavedWord[] => words;
export const onSavedWords = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};
