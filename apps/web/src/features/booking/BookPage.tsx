// Books a job while the caller is still on the phone: one page from the name to the held time with its price.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { closeInquiry } from '../../api/feeSetUp.ts';
import { holdJob, quoteQuery, townsQuery } from '../../api/jobs.ts';
import { useMe } from '../../api/people.ts';
import { placeQuery } from '../../api/travel.ts';
import { Money } from '../../ui/Money.tsx';
import { NextChoices } from '../../ui/NextChoices.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { todayIn } from '../../ui/time.ts';
import { When } from '../../ui/When.tsx';
import { dayAsked, forgetDraft, holdBody, placeAsked, placeOf, useDraft, type Draft } from './draft.ts';
import { CallerInputs, HouseInputs } from './Inputs.tsx';
import { QuotePanel } from './QuotePanel.tsx';
import { KeepInquiry, useInquiry } from './KeepInquiry.tsx';
import { Services } from './Services.tsx';
import { Starts } from './Starts.tsx';
import { ToldWindow } from './ToldWindow.tsx';
import classes from './booking.module.css';

export function BookPage(): ReactNode {
  const { zone } = useMe();
  const { draft, change, clear } = useDraft(todayIn(zone));
  const towns = useQuery(townsQuery);
  const zipPlace = useQuery(placeQuery(placeAsked(draft)));
  const place = placeOf(draft, towns.data ?? [], zipPlace.data);
  const [asked] = useDebouncedValue({ facts: draft.facts, services: draft.services, place, ...dayAsked(draft, zone) }, 250);
  const quote = useQuery(quoteQuery(asked));
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
          {quote.data ? <QuotePanel quote={quote.data} /> : null}
          <Starts draft={draft} change={change} asked={asked} />
          <HoldPanel draft={draft} change={change} cents={quote.isPlaceholderData ? null : (quote.data?.fee.totalCents ?? null)} />
          <KeepInquiry draft={draft} place={place} done={clear} />
        </div>
      </div>
    </Page>
  );
}

type PanelProps = { draft: Draft; change: (part: Partial<Draft>) => void };

function HoldPanel({ draft, change, cents }: PanelProps & { cents: number | null }): ReactNode {
  const { zone } = useMe();
  const navigate = useNavigate();
  const queries = useQueryClient();
  const hold = useMutation({
    mutationFn: (told: number) => holdJob(holdBody(draft, told, zone)),
    onSuccess: async (held) => {
      forgetDraft();
      if (draft.inquiry)
        await closeInquiry({ ...draft.inquiry, outcome: 'booked', jobId: held.id }).catch(() =>
          saved('The price asked earlier was not closed; close it by hand.'),
        );
      saved(`Job ${held.number} is held.`);
      for (const { text } of held.warnings) saved(text);
      await queries.invalidateQueries({ queryKey: ['jobs'] });
      await navigate({ to: '/jobs/$jobId', params: { jobId: held.id } });
    },
    onError: () => {
      void queries.invalidateQueries({ queryKey: ['starts'] });
      void queries.invalidateQueries({ queryKey: ['quote'] });
    },
  });
  const missing = [
    [draft.caller, 'the name of the caller'],
    [draft.address, 'the street address'],
    [draft.town, 'the town'],
    [draft.start, 'a start'],
    [!draft.told || (draft.told.from && draft.told.until), 'both ends of the window told to the client'],
  ]
    .filter(([value]) => !value)
    .map(([, name]) => name);
  return (
    <section aria-label="Hold" className={`${classes.panel} ${classes.hold}`}>
      <ProblemNote of={hold.error}>
        <NextChoices
          of={hold.error}
          onTake={(start) => {
            hold.reset();
            change({ start, told: null });
          }}
        />
      </ProblemNote>
      {missing.length > 0 ? <p className={classes.soft}>Still needed for a hold: {missing.join(', ')}.</p> : null}
      {draft.start ? (
        <p className={classes.soft}>
          Chosen: <When at={draft.start.startsAt} />
        </p>
      ) : null}
      <ToldWindow draft={draft} change={change} />
      <Button
        size="md"
        loading={hold.isPending}
        disabled={missing.length > 0 || cents === null}
        onClick={() => cents !== null && hold.mutate(cents)}
      >
        Hold this time
        {cents === null ? (
          ''
        ) : (
          <>
            {' '}
            for&nbsp;
            <Money cents={cents} />
          </>
        )}
      </Button>
    </section>
  );
}
