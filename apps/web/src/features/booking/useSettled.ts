// What is typed, once nobody has typed for a moment. The same words are the same value, so that looking at it again asks nothing anew.
import { useMemo } from 'react';
import { useDebouncedValue } from '@mantine/hooks';

/** `value` is plain JSON; `after` is in milliseconds. */
export function useSettled<T>(value: T, after: number): T {
  const [settled] = useDebouncedValue(JSON.stringify(value), after);
  return useMemo(() => JSON.parse(settled) as T, [settled]);
}
