// An instant in the firm's time zone, or a span of two, or a day.
import type { ReactNode } from 'react';
import { useMe } from '../api/people.ts';
import { clockText, dayText, instantText } from './time.ts';

/** `at`, and `until` on the same day when it is a span: ISO instants. */
export function When({ at, until }: { at: string; until?: string }): ReactNode {
  const { zone } = useMe();
  return (
    <time dateTime={at}>
      {instantText(at, zone)}
      {until ? ` to ${clockText(until, zone)}` : ''}
    </time>
  );
}

export const Day = ({ day }: { day: string }): ReactNode => <time dateTime={day}>{dayText(day)}</time>;
