// What callers ask besides price and time: an answer to each, in words that can be read out.
import { useState, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { DateTime } from 'luxon';
import type { Quote } from '@backsight/contract/jobs';
import { deskRulesQuery } from '../../api/desk.ts';
import { moneyRulesQuery } from '../../api/fees.ts';
import { firmQuery } from '../../api/firm.ts';
import { peopleQuery, useMe } from '../../api/people.ts';
import { fileQuery } from '../../api/personFile.ts';
import { minutesText } from '../../ui/minutes.ts';
import { clockText } from '../../ui/time.ts';
import { licenseWords, payWords, reportWords } from './answers.ts';
import { dayAsked, type Draft } from './draft.ts';
import { lateWords } from './lateWords.ts';
import { MoreAsked } from './MoreAsked.tsx';
import classes from './booking.module.css';
import desk from './desk.module.css';

type Props = { draft: Draft; quote: Quote };

/** The commonest questions stand open; what is asked less often is looked for only once it is unfolded. */
export function Asked({ draft, quote }: Props): ReactNode {
  const [more, setMore] = useState(false);
  const { zone, roles } = useMe();
  const rules = useQuery(deskRulesQuery).data?.rules;
  const firm = useQuery(firmQuery).data;
  const office = roles.some((role) => role === 'owner' || role === 'office_manager');
  const money = useQuery({ ...moneyRulesQuery, enabled: office }).data;
  return (
    <section aria-label="Callers also ask" className={classes.panel}>
      <h2>Callers also ask</h2>
      <dl className={desk.asked}>
        <AboutVisit draft={draft} quote={quote} />
        {firm ? (
          <>
            <dt>When is the report there?</dt>
            <dd>{reportWords(firm.reportDueDays, draft.start ? dayAsked(draft, zone).day : null, money?.paidBeforeHandOver ?? true)}</dd>
          </>
        ) : null}
        <dt>When do we pay?</dt>
        <dd>{payWords(draft.terms, money)}</dd>
        {rules ? (
          <>
            <dt>What if we cancel?</dt>
            <dd>{lateWords(rules.late)}</dd>
          </>
        ) : null}
        {firm ? (
          <>
            <dt>How long is the time kept?</dt>
            <dd>{`${minutesText(firm.holdMinutes)} after it is held; then it is free for others unless the booking is confirmed.`}</dd>
          </>
        ) : null}
      </dl>
      <details onToggle={(event) => setMore(event.currentTarget.open)}>
        <summary>More that callers ask</summary>
        {more && firm ? <MoreAsked draft={draft} quote={quote} firm={firm} rules={rules} /> : null}
      </details>
    </section>
  );
}

function AboutVisit({ draft, quote: { duration } }: Props): ReactNode {
  const { zone } = useMe();
  const { start } = draft;
  const at = start ? DateTime.fromISO(start.startsAt, { zone }) : null;
  const clock = (minutes: number): string => clockText(at!.plus({ minutes }).toISO()!, zone);
  const shown = duration.walkThroughMinutes;
  return (
    <>
      <dt>How long does it take?</dt>
      <dd>{`${minutesText(duration.minutes)} at the house${at ? `, from ${clock(0)} to ${clock(duration.minutes)}` : ''}.`}</dd>
      <dt>Who comes? Licensed?</dt>
      <dd>
        {start
          ? [start.first, start.second].map((id) => (id === null ? null : <Comes key={id} id={id} on={dayAsked(draft, zone).day} />))
          : 'Two licensed inspectors; their names stand at each start.'}
      </dd>
      <dt>Do we have to be there?</dt>
      <dd>
        {`Somebody opens the house, or a way in is agreed; no child alone at home. ${
          shown > 0
            ? `The client is shown the house in the last ${shown} min${at ? `, from ${clock(duration.minutes - shown)}` : ''}, or told by phone.`
            : ''
        }`}
      </dd>
    </>
  );
}

/** Who comes, with the license that is valid on that day. */
function Comes({ id, on }: { id: string; on: string }): ReactNode {
  const name = useQuery(peopleQuery).data?.find((one) => one.id === id)?.name ?? '';
  const file = useQuery(fileQuery(id)).data;
  return <div>{`${name}${file ? `: ${licenseWords(file, on)}` : ''}`}</div>;
}
