// Books a job while the caller is still on the phone: one page from the name to the held time with its price.
import { useEffect, useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { quoteQuery, townsQuery } from '../../api/jobs.ts';
import { useMe } from '../../api/people.ts';
import { placeQuery } from '../../api/travel.ts';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { discountSent } from '../../ui/DiscountInputs.tsx';
import { todayIn } from '../../ui/time.ts';
import { Asked } from './Asked.tsx';
import { dayAsked, placeAsked, placeOf } from './draft.ts';
import { Discount } from './Discount.tsx';
import { goOn } from './goOn.ts';
import { HoldPanel } from './HoldPanel.tsx';
import { CallerInputs, HouseInputs } from './Inputs.tsx';
import { QuotePanel } from './QuotePanel.tsx';
import { KeepInquiry, useInquiry } from './KeepInquiry.tsx';
import { OtherCalls } from './OtherCalls.tsx';
import { Services } from './Services.tsx';
import { Starts, useStarts } from './Starts.tsx';
import { useDesk, type Desk } from './useDesk.ts';
import { useSettled } from './useSettled.ts';
import classes from './booking.module.css';

const NONE: never[] = [];

export function BookPage(): ReactNode {
  const { zone } = useMe();
  const desk = useDesk(todayIn(zone));
  useSecondCaller(desk);
  return (
    <Page
      title="Book a job"
      about="A held time with a price. What is typed stays in this browser until the time is held."
      actions={
        <>
          <Button variant="default" onClick={desk.putAside} aria-keyshortcuts="Alt+N" title="Alt+N">
            Keep this call, take another
          </Button>
          <Button variant="default" onClick={desk.drop}>
            Begin anew
          </Button>
        </>
      }
    >
      <OtherCalls desk={desk} />
      {/* Another call is another page: nothing that was folded open or asked for the one stays with the other. */}
      <OneCall key={desk.draft.jobId} desk={desk} />
    </Page>
  );
}

/** Alt+N keeps the call from wherever one is typing. By the place of the key: with Alt some keyboards write another letter. */
function useSecondCaller({ putAside }: Desk): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (!event.altKey || event.ctrlKey || event.metaKey || event.code !== 'KeyN') return;
      event.preventDefault();
      putAside();
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, [putAside]);
}

function OneCall({ desk: { draft, change: tell, drop } }: { desk: Desk }): ReactNode {
  const { zone } = useMe();
  // A change is told to the state itself, so the first function does for the whole call: inputs are drawn anew with the draft alone.
  const [change] = useState(() => tell);
  const towns = useQuery(townsQuery);
  const zipPlace = useQuery(placeQuery(placeAsked(draft)));
  const place = placeOf(draft, towns.data ?? [], zipPlace.data);
  const typed = { facts: draft.facts, services: draft.services, place, ...dayAsked(draft, zone) };
  const asked = useSettled({ ...typed, discount: discountSent(draft.discount) });
  const quote = useQuery(quoteQuery(asked));
  const starts = useStarts({ draft, asked });
  const inquiryError = useInquiry(draft, change);
  return (
    <div className={classes.columns} role="presentation" onKeyDown={goOn}>
      <div className={classes.column}>
        <CallerInputs draft={draft} change={change} />
        <HouseInputs draft={draft} change={change} />
        <Services ordered={draft.services} change={change} services={quote.data?.services ?? NONE} />
      </div>
      <div className={`${classes.column} ${classes.beside}`}>
        <ProblemNote of={quote.error ?? inquiryError} />
        {quote.data ? (
          <QuotePanel quote={quote.data} discount={<Discount draft={draft} change={change} refused={quote.data.discountRefused} />} />
        ) : null}
        <Starts draft={draft} change={change} {...starts} />
        <HoldPanel draft={draft} change={change} cents={quote.data?.fee.totalCents ?? null} />
        <KeepInquiry draft={draft} change={change} place={place} done={drop} />
      </div>
      {/* Below the inputs where there is room beside them, last on a phone and by keyboard. */}
      <div className={classes.below}>{quote.data ? <Asked draft={draft} quote={quote.data} /> : null}</div>
    </div>
  );
}
