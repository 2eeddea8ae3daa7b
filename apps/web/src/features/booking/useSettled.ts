// What is typed, once nobody has typed for a moment. The same words are the same value, so that looking at it again asks nothing anew.
import { useMemo } from 'react';
import { useDebouncedValue } from '@mantine/hooks';

/**
 * Milliseconds after the last key until the service is asked. What a scanner or a paste types comes closer together than this;
 * somebody who types does not, and has every answer while the finger still lies on the key: what was asked before is given up.
 */
const PAUSE = 20;

/** `value` is plain JSON. */
export function useSettled<T>(value: T): T {
  const [settled] = useDebouncedValue(JSON.stringify(value), PAUSE);
  return useMemo(() => JSON.parse(settled) as T, [settled]);
}
