// A number, with large keys of our own under it where a finger presses: those of a phone are too small for gloves, and some lack the minus sign.
import { useId, useRef, useState, type ReactNode } from 'react';
import classes from './readingKeys.module.css';

type Props = { label: string; description?: string | undefined; value: string; onChange: (value: string) => void };

const KEYS = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '-', '0', '.'] as const;
type Key = (typeof KEYS)[number];
const SAID: Partial<Record<Key, string>> = { '-': 'Minus', '.': 'Point' };

/** What stands there after a key: the minus sign changes the sign, a second point changes nothing. */
const after = (value: string, key: Key): string => {
  if (key === '-') return value.startsWith('-') ? value.slice(1) : `-${value}`;
  return key === '.' && value.includes('.') ? value : value + key;
};

/** The press that takes the focus has landed by then: keys that went at once would move what is pressed away beneath the finger. */
const PRESSED_MS = 300;

const byFinger = (): boolean => window.matchMedia('(pointer: coarse)').matches;

export function ReadingInput({ label, description, value, onChange }: Props): ReactNode {
  const id = useId();
  const [finger] = useState(byFinger);
  const [open, setOpen] = useState(false);
  const box = useRef<HTMLDivElement>(null);
  const leave = () => setTimeout(() => box.current?.contains(document.activeElement) || setOpen(false), PRESSED_MS);
  return (
    <div ref={box} onFocus={() => setOpen(finger)} onBlur={leave}>
      <label htmlFor={id} className={classes.label}>
        {label}
      </label>
      {description ? (
        <p id={`${id}-about`} className={classes.about}>
          {description}
        </p>
      ) : null}
      <input
        id={id}
        className={classes.reading}
        aria-describedby={description ? `${id}-about` : undefined}
        inputMode={finger ? 'none' : 'decimal'}
        autoComplete="off"
        value={value}
        onChange={(event) => onChange(event.currentTarget.value)}
      />
      {open ? (
        <div className={classes.keys} role="group" aria-label={`Keys for: ${label}`}>
          {KEYS.map((key) => (
            <button key={key} type="button" className={classes.key} aria-label={SAID[key]} onClick={() => onChange(after(value, key))}>
              {key === '-' ? '\u2212' : key}
            </button>
          ))}
          <button type="button" className={classes.wideKey} onClick={() => onChange(value.slice(0, -1))}>
            Delete the last
          </button>
        </div>
      ) : null}
    </div>
  );
}
