// Where the short words stand that something was done; they are read out, and go by themselves. The last act may be undone there, or by keys.
// What takes long is said there too, from two seconds on.
import { useEffect, useState, useSyncExternalStore, type ReactNode } from 'react';
import { useIsMutating } from '@tanstack/react-query';
import { closeWord, onSavedWords, savedWords, undoWord } from './saved.ts';
import classes from './Saved.module.css';

export function Saved(): ReactNode {
  const words = useSyncExternalStore(onSavedWords, savedWords);
  useUndoKeys();
  return (
    <div role="status" className={classes.words}>
      <Working />
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

const LONG_SECONDS = 2;

/** While something that was sent takes long: that it goes on, and for how long by now. The seconds are not read out one by one. */
function Working(): ReactNode {
  const sending = useIsMutating() > 0;
  const [since, setSince] = useState({ sending, seconds: 0 });
  if (since.sending !== sending) setSince({ sending, seconds: 0 });
  useEffect(() => {
    if (!sending) return;
    const clock = setInterval(() => setSince((before) => ({ ...before, seconds: before.seconds + 1 })), 1000);
    return () => clearInterval(clock);
  }, [sending]);
  if (!sending || since.seconds < LONG_SECONDS) return null;
  return (
    <p className={classes.word}>
      <span>
        Still working on it. You will see here when it is done. <span aria-hidden>{since.seconds} s</span>
      </span>
    </p>
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
