// When the firm can come to the house of the draft: wishes, ranked starts, and whether the chosen one is still possible.
import { memo, useCallback, useMemo, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { partiesQuery, propertyQuery } from '../../api/jobs.ts';
import { startsQuery, type StartsAsk } from '../../api/schedule.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { StartChoice, startKey } from '../../ui/StartChoice.tsx';
import { minuteOf } from '../../ui/clock.ts';
import type { Draft } from './draft.ts';
import { StillPossible } from './StillPossible.tsx';
import { useSettled } from './useSettled.ts';
import { WantedPair } from './WantedPair.tsx';
import { WishInputs } from './WishInputs.tsx';
import classes from './booking.module.css';
import desk from './desk.module.css';

const DAYS = 14;
/** Enough for two of each day; the list shows the best first, or by day. */
const SHOWN = 28;

type Place = { lat: number; lon: number };
type Asked = { facts: Draft['facts']; services: string[]; place: Place | null };
type Props = { draft: Draft; change: (part: Partial<Draft>) => void } & ReturnType<typeof useStarts>;

const wishesOf = ({ half, wishPerson }: Draft): StartsAsk['wishes'] => ({
  ...(half ? { half } : {}),
  ...(wishPerson ? { personId: wishPerson } : {}),
});

type Known = { propertyId: string | null; parties: string[] };

/** The house and the people of the draft that are on file: chosen, or recognised by the very e-mail address or phone. */
function useKnown(draft: Draft): Known {
  const typed = useSettled({ address: draft.address.trim(), town: draft.town, email: draft.email.trim(), phone: draft.phone });
  const house = useQuery(propertyQuery({ address: typed.address, town: typed.town }));
  const digits = (phone: string | null): string => (phone ?? '').replace(/\D/g, '').slice(-10);
  const byEmail = useQuery(partiesQuery(draft.known ? '' : typed.email));
  const byPhone = useQuery(partiesQuery(draft.known || digits(typed.phone).length < 7 ? '' : typed.phone.trim()));
  const same = [
    ...(byEmail.data ?? []).filter(({ email }) => typed.email !== '' && email?.toLowerCase() === typed.email.toLowerCase()),
    ...(byPhone.data ?? []).filter(({ phone }) => digits(typed.phone).length >= 7 && digits(phone) === digits(typed.phone)),
  ];
  const parties = draft.known ? [draft.callerId] : [...new Set(same.map(({ id }) => id))].slice(0, 12);
  return { propertyId: house.data?.propertyId ?? null, parties };
}

/** The question for the draft; null until it is known where the house is. */
function askOf({ draft, asked, ...known }: { draft: Draft; asked: Asked } & Known): StartsAsk | null {
  const [earliest, latestEnd] = [minuteOf(draft.earliest), minuteOf(draft.latestEnd)];
  return asked.place
    ? {
        place: asked.place,
        facts: asked.facts,
        services: asked.services,
        ...known,
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

/** What is asked for the draft, and what was answered last. The same question is the same value. */
export function useStarts({ draft, asked }: { draft: Draft; asked: Asked }) {
  const said = JSON.stringify(askOf({ draft, asked, ...useKnown(draft) }));
  const ask = useMemo(() => JSON.parse(said) as StartsAsk | null, [said]);
  const { data, error } = useQuery(startsQuery(ask));
  return { ask, answer: ask ? (data ?? null) : null, error };
}

/** Drawn anew only when it has something else to say: what the caller says meanwhile changes nothing here. */
export const Starts = memo(function Starts({ draft, change, ask, answer, error }: Props): ReactNode {
  const choose = useCallback(
    ({ startsAt, first, second }: NonNullable<Draft['start']>) => change({ start: { startsAt, first, second }, told: null }),
    [change],
  );
  return (
    <section aria-label="When the firm can come" className={classes.panel}>
      <h2>When we can come</h2>
      <WishInputs draft={draft} change={change} />
      {ask ? null : <p className={classes.soft}>Say first where the house is: the driving depends on it.</p>}
      <ProblemNote of={error} />
      {ask && draft.start && answer ? <StillPossible ask={ask} start={draft.start} minutes={answer.minutes} /> : null}
      {ask && answer ? (
        <>
          <StartChoice starts={answer} chosen={draft.start ? startKey(draft.start) : null} onChoose={choose} />
          <p className={desk.hint}>Enter goes on: from an input to the starts, from a start to the hold.</p>
          <WantedPair ask={ask} onChoose={choose} />
        </>
      ) : null}
    </section>
  );
});
