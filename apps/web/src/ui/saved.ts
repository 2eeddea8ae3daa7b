// A short word at the edge of the screen that something was done, and the way back where the act allows one.
import { asProblem } from '../api/problemError.ts';

const FOCUS_AFTER_MS = 150;
const SHOWN_MS = 5000;
/** Time enough to read what was done, to see that it was wrong, and to reach the button by keys. */
const WITH_UNDO_MS = 20_000;

/** Does the inverse of an act, and shows the screen as it is then. */
export type Undo = () => Promise<unknown>;
export type SavedWord = { id: number; message: string; undo?: Undo };
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

/** Only the last act can be undone: an older word keeps its sentence and loses its button. */
export function saved(message: string, undo?: Undo): void {
  setTimeout(keepFocus, FOCUS_AFTER_MS);
  const id = ++last;
  change([...words.map((word) => ({ id: word.id, message: word.message })), { id, message, ...(undo ? { undo } : {}) }]);
  setTimeout(() => closeWord(id), undo ? WITH_UNDO_MS : SHOWN_MS);
}

/** Undoes the act of a word, and says so, or why it cannot be undone any more. */
export async function undoWord({ id, undo }: SavedWord): Promise<void> {
  closeWord(id);
  try {
    await undo?.();
    saved('Undone: it is as before.');
  } catch (error) {
    saved(`Not undone. ${asProblem(error)?.message ?? ''}`);
  }
}

export const savedWords = (): readonly SavedWord[] => words;
export const onSavedWords = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};
