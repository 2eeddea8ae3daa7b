// What callers ask besides price and time: an answer to each, in words that can be read out.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { DateTime } from 'luxon';
import type { Starts } from '@backsight/contract/schedule';
import { deskRulesQuery } from '../../api/desk.ts';
import { firmQuery } from '../../api/firm.ts';
import { peopleQuery, useMe } from '../../api/people.ts';
import { minutesText } from '../../ui/minutes.ts';
import { clockText } from '../../ui/time.ts';
import { lateWords } from './lateWords.ts';
import type { Draft } from './draft.ts';
import classes from './booking.module.css';
import desk from './desk.module.css';

/** `starts`: what was answered for the house; null before it is known where it is. */
export function Asked({ draft, starts }: { draft: Draft; starts: Starts | null }): ReactNode {
  const rules = useQuery(deskRulesQuery).data?.rules;
  const firm = useQuery(firmQuery).data;
  return (
    <section aria-label="Callers also ask" className={classes.panel}>
      <h2>Callers also ask</h2>
      <dl className={desk.asked}>
        {starts ? <AboutVisit draft={draft} starts={starts} /> : null}
        {rules ? (
          <>
            <dt>What if we cancel?</dt>
            <dd>{lateWords(rules.late)}</dd>
          </>
        ) : null}
        {firm ? (
          <>
            <dt>When is the report there?</dt>
            <dd>{reportWords(firm.reportDueDays)}</dd>
          </>
        ) : null}
      </dl>
    </section>
  );
}

const reportWords = (days: number): string =>
  `${days === 0 ? 'On the day of the visit' : `Within ${days} ${days === 1 ? 'day' : 'days'} of the visit`}, once the agreement is signed and the fee is paid.`;

function AboutVisit({ draft, starts }: { draft: Draft; starts: Starts }): ReactNode {
  const { zone } = useMe();
  const people = useQuery(peopleQuery).data ?? [];
  const name = (id: string | null): string => people.find((one) => one.id === id)?.name ?? '';
  const { start } = draft;
  const at = start ? DateTime.fromISO(start.startsAt) : null;
  const clock = (minutes: number): string => clockText(at!.plus({ minutes }).toISO()!, zone);
  const shown = starts.walkThroughMinutes;
  return (
    <>
      <dt>How long does it take?</dt>
      <dd>{`${minutesText(starts.minutes)} at the house${at ? `, from ${clock(0)} to ${clock(starts.minutes)}` : ''}.`}</dd>
      <dt>Who comes?</dt>
      <dd>
        {start
          ? [start.first, start.second].map(name).filter(Boolean).join(' and ')
          : 'Two licensed inspectors; their names stand at each start.'}
      </dd>
      <dt>Do we have to be there?</dt>
      <dd>
        {`Somebody opens the house, or a way in is agreed; no child alone at home. ${
          shown > 0
            ? `The client is shown the house in the last ${shown} min${at ? `, from ${clock(starts.minutes - shown)}` : ''}, or told by phone.`
            : ''
        }`}
      </dd>
    </>
  );
}
