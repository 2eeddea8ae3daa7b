// '/' and Ctrl+K (Cmd+K) lead to the go-to box from anywhere; '/' only where nothing is being typed.
import { useEffect, type RefObject } from 'react';

const TYPED_INTO = 'input, textarea, select, [contenteditable="true"], [role="combobox"], [role="textbox"]';

/** Of the box at the side and that in the bar only one is laid out; a dialog keeps its keys. */
export function useOpeningKeys(input: RefObject<HTMLInputElement | null>): void {
  useEffect(() => {
    const open = (event: KeyboardEvent) => {
      const typing = event.target instanceof Element && event.target.closest(TYPED_INTO) !== null;
      const slash = event.key === '/' && !typing && !event.ctrlKey && !event.metaKey && !event.altKey;
      const k = event.key.toLowerCase() === 'k' && (event.ctrlKey || event.metaKey) && !event.shiftKey && !event.altKey;
      if ((!slash && !k) || input.current?.offsetParent === null || document.querySelector('[aria-modal="true"]')) return;
      event.preventDefault();
      input.current?.focus();
      input.current?.select();
    };
    document.addEventListener('keydown', open);
    return () => document.removeEventListener('keydown', open);
  }, [input]);
}
