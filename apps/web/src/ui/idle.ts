// What can wait comes once the screen stands: on a slow phone nothing else takes the time of its first step.
import { useEffect, useState } from 'react';

/** Runs `work` when the browser has nothing more pressing, at the latest after two seconds. Answers how to call it off. */
export function whenIdle(work: () => void): () => void {
  if (!('requestIdleCallback' in window)) {
    const timer = setTimeout(work, 300);
    return () => clearTimeout(timer);
  }
  const id = window.requestIdleCallback(work, { timeout: 2_000 });
  return () => window.cancelIdleCallback(id);
}

/** True once the browser has had nothing more pressing. */
export function useIdle(): boolean {
  const [idle, setIdle] = useState(false);
  useEffect(() => whenIdle(() => setIdle(true)), []);
  return idle;
}
