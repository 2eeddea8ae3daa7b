// Books a job while the caller is still on the phone: one page from the name to the held time with its price.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { quoteQuery, townsQuery } from '../../api/jobs.ts';
import { useMe } from '../../api/people.ts';
import { placeQuery } from '../../api/travel.ts';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { discountSent } from '../../ui/DiscountInputs.tsx';
import { todayIn } from '../../ui/time.ts';
import { dayAsked, placeAsked, placeOf, useDraft } from './draft.ts';
import { Discount } from './Discount.tsx';
import { HoldPanel } from './HoldPanel.tsx';
import { CallerInputs, HouseInputs } from './Inputs.tsx';
import { QuotePanel } from './QuotePanel.tsx';
import { KeepInquiry, useInquiry } from './KeepInquiry.tsx';
import { Services } from './Services.tsx';
import { Starts } from './Starts.tsx';
import { useSettled } from './useSettled.ts';
import classes from './booking.module.css';

/** Milliseconds after the last key: the price is cheap to work out, a search for starts is not. */
const PRICE_AFTER = 40;
const STARTS_AFTER = 250;

export function BookPage(): ReactNode {
  const { zone } = useMe();
  const { draft, change, clear } = useDraft(todayIn(zone));
  const towns = useQuery(townsQuery);
  const zipPlace = useQuery(placeQuery(placeAsked(draft)));
  const place = placeOf(draft, towns.data ?? [], zipPlace.data);
  const typed = { facts: draft.facts, services: draft.services, place, ...dayAsked(draft, zone) };
  const quote = useQuery(quoteQuery(useSettled({ ...typed, discount: discountSent(draft.discount) }, PRICE_AFTER)));
  const asked = useSettled(typed, STARTS_AFTER);
  const inquiryError = useInquiry(draft, change);
  return (
    <Page
      title="Book a job"
      about="A held time with a price. What is typed stays in this browser until the time is held."
      actions={
        <Button variant="default" onClick={clear}>
          Begin anew
        </Button>
      }
    >
      <div className={classes.columns}>
        <div className={classes.column}>
          <CallerInputs draft={draft} change={change} />
          <HouseInputs draft={draft} change={change} />
          <Services draft={draft} change={change} services={quote.data?.services ?? []} />
        </div>
        <div className={classes.column}>
          <ProblemNote of={quote.error ?? inquiryError} />
          {quote.data ? (
            <QuotePanel quote={quote.data} discount={<Discount draft={draft} change={change} refused={quote.data.discountRefused} />} />
          ) : null}
          <Starts draft={draft} change={change} asked={asked} />
          <HoldPanel draft={draft} change={change} cents={quote.data?.fee.totalCents ?? null} />
          <KeepInquiry draft={draft} place={place} done={clear} />
        </div>
      </div>
    </Page>
  );
}
