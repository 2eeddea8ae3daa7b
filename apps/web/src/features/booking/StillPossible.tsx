// Whether the chosen start is still possible after something of the house, the services or the wishes changed.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { DateTime } from 'luxon';
import { useMe } from '../../api/people.ts';
import { startsQuery, type StartsAsk } from '../../api/schedule.ts';
import { When } from '../../ui/When.tsx';
import type { Draft } from './draft.ts';
import classes from './booking.module.css';

type Props = { ask: StartsAsk; start: NonNullable<Draft['start']>; minutes: number };

/** Asks for exactly this start and these people; nothing is said while it holds. */
export function StillPossible({ ask, start, minutes }: Props): ReactNode {
  const { zone } = useMe();
  const at = DateTime.fromISO(start.startsAt, { zone });
  const earliest = at.hour * 60 + at.minute;
  const exact = useQuery(
    startsQuery(
      start.second === null
        ? null
        : {
            ...ask,
            perDay: 20,
            fromDay: at.toFormat('yyyy-MM-dd'),
            days: 1,
            earliest,
            latestEnd: Math.min(1440, earliest + minutes),
            pair: [start.first, start.second],
          },
    ),
  );
  if (!exact.data || exact.isPlaceholderData || exact.data.minutes !== minutes) return null;
  if (exact.data.wanted?.options.some(({ startsAt }) => Date.parse(startsAt) === Date.parse(start.startsAt))) return null;
  const why = exact.data.wanted?.blockedDays.flatMap(({ reasons }) => reasons) ?? [];
  return (
    <p role="alert" className={classes.gone}>
      The chosen start on <When at={start.startsAt} /> is no longer possible with what is known now. {why.join(' ')} Choose another one.
    </p>
  );
}
