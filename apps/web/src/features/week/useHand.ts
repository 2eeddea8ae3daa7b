// The visit in hand: taken, carried about, and what a move to where it is held would come to.
import { useMemo, useState } from 'react';
import { useQuery } from '@tanstack/react-query';
import { useDebouncedValue } from '@mantine/hooks';
import type { Week } from '@backsight/contract/schedule';
import { rehearsalQuery } from '../../api/schedule.ts';
import { DateTime } from 'luxon';
import { instantAt, minuteOf, type Visit } from './geometry.ts';
import { movable, sameSpot, type Held, type Spot } from './spot.ts';

/** Longer than keys that are held down take from one to the next. */
const REST_MS = 250;

export function spotOf(visit: Visit, zone: string): Spot {
  const day = DateTime.fromISO(visit.startsAt, { zone }).toFormat('yyyy-MM-dd');
  return { day, minute: minuteOf(visit.startsAt, day, zone), first: visit.first, second: visit.second };
}

export function useHand(zone: string) {
  const [held, setHeld] = useState<Held | null>(null);
  return {
    held,
    hold: setHeld,
    leave: () => setHeld(null),
    take: (visit: Visit, personId: string, at?: Spot) => {
      const was = spotOf(visit, zone);
      const carrier = [visit.first, visit.second].includes(personId) ? personId : visit.first;
      setHeld({ visit, carrier, was, spot: at ?? was });
    },
  };
}

/** Asked once the visit rests; `pending` as long as what is known is about another place. */
export function useRehearsal({ visit, was, spot }: Held, zone: Week['zone']) {
  const start = useMemo(
    () =>
      sameSpot(was, spot) || !movable(visit)
        ? null
        : { startsAt: instantAt(spot.day, spot.minute, zone), first: spot.first, second: spot.second },
    [was, spot, visit, zone],
  );
  const [rests] = useDebouncedValue(start, REST_MS);
  const query = useQuery(rehearsalQuery(visit, rests));
  const fresh = start !== null && rests === start;
  return {
    start,
    data: fresh ? query.data : undefined,
    error: fresh ? query.error : null,
    pending: start !== null && (!fresh || query.isPending),
  };
}
