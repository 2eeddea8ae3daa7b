// Where the short words stand that something was done; they are read out, and go by themselves.
import { useSyncExternalStore, type ReactNode } from 'react';
import { closeWord, onSavedWords, savedWords } from './saved.ts';
import classes from './Saved.module.css';

export function Saved(): ReactNode {
  const words = useSyncExternalStore(onSavedWords, savedWords);
  return (
    <div role="status" className={classes.words}>
      {words.map(({ id, message }) => (
        <p key={id} className={classes.word}>
          <span>{message}</span>
          <button type="button" aria-label="Close" className={classes.close} onClick={() => closeWord(id)}>
            <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden>
              <path d="M3 3l10 10M13 3L3 13" stroke="currentColor" strokeWidth="1.5" />
            </svg>
          </button>
        </p>
      ))}
    </div>
  );
}
