// A form that opens in the place of its button: when it is gone, the button has the focus again.
import { useEffect, useRef, type RefObject } from 'react';

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
