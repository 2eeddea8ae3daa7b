// A short word at the edge of the screen that something was done.
import { notifications } from '@mantine/notifications';

const AFTER_MS = 150;

/** What was pressed may be gone by then: the keyboard goes on from the page, not from nowhere. */
const keepFocus = (): void => {
  if (document.activeElement === null || document.activeElement === document.body) document.getElementById('main')?.focus();
};

export const saved = (message: string): void => {
  setTimeout(keepFocus, AFTER_MS);
  notifications.show({ message, color: 'lake', withBorder: true, autoClose: 5000, closeButtonProps: { 'aria-label': 'Close' } });
};
