// When the firm can come to the house of the draft: wishes, ranked starts, and whether the chosen one is still possible.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { startsQuery, type StartsAsk } from '../../api/schedule.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { StartChoice, startKey } from '../../ui/StartChoice.tsx';
import { minuteOf } from '../../ui/clock.ts';
import type { Draft } from './draft.ts';
import { StillPossible } from './StillPossible.tsx';
import { WantedPair } from './WantedPair.tsx';
import { WishInputs } from './WishInputs.tsx';
import classes from './booking.module.css';

const DAYS = 14;
/** Enough for two of each day; the list shows the best first, or by day. */
const SHOWN = 28;

type Place = { lat: number; lon: number };
type Props = {
  draft: Draft;
  change: (part: Partial<Draft>) => void;
  asked: { facts: Draft['facts']; services: string[]; place: Place | null };
};

const wishesOf = ({ half, wishPerson }: Draft): StartsAsk['wishes'] => ({
  ...(half ? { half } : {}),
  ...(wishPerson ? { personId: wishPerson } : {}),
});

/** The question for the draft; null until it is known where the house is. */
function askOf({ draft, asked }: Omit<Props, 'change'>): StartsAsk | null {
  const [earliest, latestEnd] = [minuteOf(draft.earliest), minuteOf(draft.latestEnd)];
  return asked.place
    ? {
        place: asked.place,
        facts: asked.facts,
        services: asked.services,
        fromDay: draft.fromDay,
        days: DAYS,
        limit: SHOWN,
        perDay: 2,
        objectionOn: draft.objectionOn || null,
        wishes: wishesOf(draft),
        ...(earliest === null ? {} : { earliest }),
        ...(latestEnd === null ? {} : { latestEnd }),
        ...(draft.withAgent && draft.known ? { sameDayAs: draft.callerId } : {}),
      }
    : null;
}

export function Starts({ draft, change, asked }: Props): ReactNode {
  const ask = askOf({ draft, asked });
  const starts = useQuery(startsQuery(ask));
  return (
    <section aria-label="When the firm can come" className={classes.panel}>
      <h2>When we can come</h2>
      <WishInputs draft={draft} change={change} />
      {ask ? null : <p className={classes.soft}>Say first where the house is: the driving depends on it.</p>}
      <ProblemNote of={starts.error} />
      {ask && draft.start && starts.data ? <StillPossible ask={ask} start={draft.start} minutes={starts.data.minutes} /> : null}
      {ask && starts.data ? (
        <>
          <p className={classes.soft}>
            {`${starts.data.minutes} min at the house; the client is shown the house in the last ${starts.data.walkThroughMinutes} min.`}
          </p>
          <StartChoice
            starts={starts.data}
            chosen={draft.start ? startKey(draft.start) : null}
            onChoose={({ startsAt, first, second }) => change({ start: { startsAt, first, second } })}
          />
          <WantedPair ask={ask} onChoose={(start) => change({ start })} />
        </>
      ) : null}
    </section>
  );
}
