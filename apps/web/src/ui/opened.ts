// A form that opens in the place of the button that was pressed takes the focus, which would be nowhere else. When it is gone, the button has the focus again.
import { useEffect, useRef } from 'react';

let pressed: HTMLElement | null = null;
document.addEventListener(
  'click',
  ({ target }) => (pressed = target instanceof Element ? target.closest<HTMLElement>('button[type=button]') : null),
  true,
);

/** To be asked of a form when it appears. Where the button is still there, or something else has the focus, it stays. */
export function focusOpened(form: HTMLElement | null): void {
  const lost = document.activeElement === document.body || document.activeElement === null;
  if (!lost || pressed === null || pressed.isConnected) return;
  form?.querySelector<HTMLElement>('input:not([type=hidden]), select, textarea')?.focus();
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
    if (opened !== null && opened !== before.current) from.current = pressed;
    if (opened === null && before.current !== null) focusAgain(from.current);
    before.current = opened;
  }, [opened]);
}
