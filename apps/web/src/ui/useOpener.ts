// A form that opens in the place of its button: when it is gone, the button has the focus again.
import { useEffect, useRef, type RefObject } from 'react';
import { lastPressed } from './opened.ts';

/** For the button; where the act took the button away too, the page has the focus (`saved.ts`). */
export function useOpener(open: boolean): RefObject<HTMLButtonElement | null> {
  const button = useRef<HTMLButtonElement>(null);
  const before = useRef(open);
  useEffect(() => {
    if (before.current && !open) button.current?.focus();
    before.current = open;
  }, [open]);
  return button;
}

const nameOf = (button: Element): string => button.getAttribute('aria-label') ?? button.textContent;

/** The button itself, or the one that came back in its place; else the content of the screen, so that the keyboard goes on from there. */
function focusAgain(button: HTMLElement | null): void {
  const main = document.getElementById('main');
  const same = (one: Element): boolean => button !== null && nameOf(one) === nameOf(button);
  const found = button?.isConnected ? button : [...(main?.querySelectorAll<HTMLElement>('button') ?? [])].find(same);
  (found ?? main)?.focus();
}

/** For a screen whose forms open by several buttons, in its rows and at its head: `opened` says which form is open, null = none. */
export function useOpenedFrom(opened: unknown): void {
  const from = useRef<HTMLElement | null>(null);
  const before = useRef(opened);
  useEffect(() => {
    if (opened !== null && opened !== before.current) from.current = lastPressed();
    if (opened === null && before.current !== null) focusAgain(from.current);
    before.current = opened;
  }, [opened]);
}
