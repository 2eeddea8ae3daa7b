// A form that opens in the place of the button that was pressed takes the focus, which would be nowhere else.
let pressed: HTMLElement | null = null;
document.addEventListener(
  'click',
  ({ target }) => (pressed = target instanceof Element ? target.closest<HTMLElement>('button[type=button]') : null),
  true,
);

/** The button that was pressed last; null when something else was. */
export const lastPressed = (): HTMLElement | null => pressed;

/** To be asked of a form when it appears. Where the button is still there, or something else has the focus, it stays. */
export function focusOpened(form: HTMLElement | null): void {
  const lost = document.activeElement === document.body || document.activeElement === null;
  if (!lost || pressed === null || pressed.isConnected) return;
  form?.querySelector<HTMLElement>('input:not([type=hidden]), select, textarea')?.focus();
}
