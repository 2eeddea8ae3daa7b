// Enter goes on: from whatever is typed to the starts, from a start to the hold. Nothing is sent by it.
import type { KeyboardEvent } from 'react';

/** Id of the button that holds the time. */
export const HOLD = 'hold-this-time';

/** For the element around inputs and starts. The hold itself is one more press, after its price was read. */
export function goOn(event: KeyboardEvent<HTMLElement>): void {
  const at = event.target;
  if (event.key !== 'Enter' || !(at instanceof HTMLInputElement) || at.type === 'checkbox') return;
  const starts = event.currentTarget.querySelectorAll<HTMLInputElement>('input[type=radio]');
  const next = at.type === 'radio' ? document.getElementById(HOLD) : ([...starts].find(({ checked }) => checked) ?? starts[0]);
  if (!next) return;
  event.preventDefault();
  if (at.type === 'radio' && !at.checked) at.click(); // whoever presses Enter at a start means it
  next.focus();
}
