// Holds the chosen time at the fee that is shown: the button can be pressed at any moment and always answers.
import { useRef, useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { closeInquiry } from '../../api/feeSetUp.ts';
import { holdJob } from '../../api/jobs.ts';
import { useMe } from '../../api/people.ts';
import { discountSent } from '../../ui/DiscountInputs.tsx';
import { Money } from '../../ui/Money.tsx';
import { NextChoices } from '../../ui/NextChoices.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { When } from '../../ui/When.tsx';
import { holdBody, type Draft } from './draft.ts';
import { forgetDraft } from './useDesk.ts';
import { HOLD } from './goOn.ts';
import { useHouseState } from './useHouseState.ts';
import { ToldWindow } from './ToldWindow.tsx';
import classes from './booking.module.css';

type Props = {
  draft: Draft;
  change: (part: Partial<Draft>) => void;
  /** The fee that is shown, also while it is worked out anew: the service holds at no other one. Null before the first. */
  cents: number | null;
};

function useHold(draft: Draft) {
  const { id: personId, zone } = useMe();
  const { state } = useHouseState(draft);
  const navigate = useNavigate();
  const queries = useQueryClient();
  return useMutation({
    mutationFn: (told: number) => holdJob(holdBody(draft, told, zone, state)),
    onSuccess: async (held) => {
      forgetDraft(personId);
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
}

const missingIn = (draft: Draft, cents: number | null): string[] =>
  (
    [
      [draft.caller, 'the name of the caller'],
      [draft.email === '' || /^[^\s@]+@[^\s@]+\.[^\s@]+$/.test(draft.email.trim()), 'the whole e-mail address, or none'],
      [draft.address, 'the street address'],
      [draft.town, 'the town'],
      [draft.start, 'a start'],
      [!draft.told || (draft.told.from && draft.told.until), 'both ends of the window told to the client'],
      [draft.discount.amount === '' || discountSent(draft.discount)?.reason, 'the discount with its reason'],
      [cents !== null, 'the fee, which is being worked out'],
    ] as const
  )
    .filter(([value]) => !value)
    .map(([, name]) => name);

export function HoldPanel({ draft, change, cents }: Props): ReactNode {
  const hold = useHold(draft);
  const button = useRef<HTMLButtonElement>(null);
  const [early, setEarly] = useState(0);
  const missing = missingIn(draft, cents);
  const press = (): void => {
    if (hold.isPending) return;
    if (missing.length > 0 || cents === null) setEarly((presses) => presses + 1);
    else hold.mutate(cents);
  };
  return (
    <section aria-label="Hold" className={`${classes.panel} ${classes.hold}`}>
      <ProblemNote of={hold.error}>
        <NextChoices
          of={hold.error}
          onTake={(start) => {
            hold.reset();
            change({ start, told: null });
            button.current?.focus();
          }}
        />
      </ProblemNote>
      {missing.length > 0 ? <Missing key={early} pressed={early > 0} names={missing} /> : null}
      {draft.start ? (
        <p className={classes.soft}>
          Chosen: <When at={draft.start.startsAt} />
        </p>
      ) : null}
      <ToldWindow draft={draft} change={change} />
      {/* Never disabled, which would take the focus away just when somebody is about to press it. */}
      <Button
        id={HOLD}
        ref={button}
        size="md"
        data-disabled={missing.length > 0 || hold.isPending || undefined}
        aria-disabled={missing.length > 0 || hold.isPending}
        aria-describedby={missing.length > 0 ? 'missing-for-hold' : undefined}
        onClick={press}
      >
        {hold.isPending ? 'Holding this time' : 'Hold this time'}
        {cents === null ? null : (
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

/** Put in anew by each press that came too early, so that it is read out again. */
const Missing = ({ pressed, names }: { pressed: boolean; names: string[] }): ReactNode => (
  <p id="missing-for-hold" role={pressed ? 'alert' : undefined} className={pressed ? classes.gone : classes.soft}>
    Still needed for a hold: {names.join(', ')}.
  </p>
);
