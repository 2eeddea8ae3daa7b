// Where the short words stand that something was done; they are read out, and go by themselves. The last act may be undone there, or by keys.
import { useEffect, useSyncExternalStore, type ReactNode } from 'react';
import { closeWord, onSavedWords, savedWords, undoWord } from './saved.ts';
import classes from './Saved.module.css';

export function Saved(): ReactNode {
  const words = useSyncExternalStore(onSavedWords, savedWords);
  useUndoKeys();
  return (
    <div role="status" className={classes.words}>
      {words.map((word) => (
        <p key={word.id} className={classes.word}>
          <span>{word.message}</span>
          {word.undo ? (
            <button type="button" className={classes.undo} aria-keyshortcuts="Control+Z" onClick={() => void undoWord(word)}>
              Undo
            </button>
          ) : null}
          <button type="button" aria-label="Close" className={classes.close} onClick={() => closeWord(word.id)}>
            <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden>
              <path d="M3 3l10 10M13 3L3 13" stroke="currentColor" strokeWidth="1.5" />
            </svg>
          </button>
        </p>
      ))}
    </div>
  );
}

/** Ctrl+Z outside of what is typed, where those keys undo typing. */
function useUndoKeys(): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const typing = event.target instanceof HTMLElement && event.target.matches('input, textarea, select, [contenteditable]');
      const word = savedWords().find(({ undo }) => undo);
      if (!word || typing || event.shiftKey || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
      event.preventDefault();
      void undoWord(word);
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, []);
}
