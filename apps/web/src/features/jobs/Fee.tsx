// The fee of a job line by line, and a discount given by hand on it: the difference first, then the change.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { DISCOUNT_KEY, SOURCES, TERMS, type FeeChange, type JobPage as Job } from '@backsight/contract/jobs';
import { giveDiscount, previewDiscount } from '../../api/jobs.ts';
import { Details } from '../../ui/Details.tsx';
import { DiscountInputs, discountSent, NO_DISCOUNT } from '../../ui/DiscountInputs.tsx';
import { FeeDifference } from '../../ui/FeeDifference.tsx';
import { Money } from '../../ui/Money.tsx';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { Day } from '../../ui/When.tsx';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

export function Fee({ job, mayWork }: { job: Job; mayWork: boolean }): ReactNode {
  const [open, setOpen] = useState<'give' | 'takeOff' | null>(null);
  const total = job.feeLines.reduce((sum, { cents }) => sum + cents, 0);
  const given = job.feeLines.some(({ rule }) => rule === DISCOUNT_KEY);
  const may = mayWork && ['held', 'booked', 'lapsed'].includes(job.state) && total > 0;
  return (
    <section aria-label="Fee">
      <h2>Fee</h2>
      <Details
        rows={[
          ...job.feeLines.map(
            ({ label, reason, assumption, cents }) =>
              [
                label,
                <>
                  <Money cents={cents} />, {reason}
                  {assumption ? `. ${assumption}` : ''}
                </>,
              ] as const,
          ),
          ['Sum', <Money cents={total} />],
          ['Payment', TERMS[job.terms]],
          ['Services', job.services.map(({ name, provider }) => (provider ? `${name} (${provider})` : name)).join(', ')],
          ...(job.objectionOn ? [['Client objects by', <Day day={job.objectionOn} />] as const] : []),
          ['Heard of us through', SOURCES[job.source]],
        ]}
      />
      {may && open === null ? (
        <Group gap="sm">
          <Button variant="default" onClick={() => setOpen('give')}>
            {given ? 'Change the discount' : 'Give a discount'}
          </Button>
          {given ? (
            <Button variant="default" onClick={() => setOpen('takeOff')}>
              Take the discount off
            </Button>
          ) : null}
        </Group>
      ) : null}
      {open === null ? null : <Discount key={open} job={job} takeOff={open === 'takeOff'} onDone={() => setOpen(null)} />}
    </section>
  );
}

function Discount({ job, takeOff, onDone }: { job: Job; takeOff: boolean; onDone: () => void }): ReactNode {
  const { values: typed, setValues, draft } = useDraft(NO_DISCOUNT, takeOff ? 'discount off' : 'discount');
  const look = useMutation({ mutationFn: previewDiscount });
  const give = useChange(giveDiscount, takeOff ? 'The discount is off.' : 'The discount is on the job.', ({ warnings }) => {
    for (const { text } of warnings) saved(text);
    onDone();
  });
  const said = takeOff ? { cents: null, percent: null, reason: typed.reason.trim() } : discountSent(typed);
  const change = (next: typeof typed) => {
    setValues(next);
    if (next.amount !== typed.amount || next.unit !== typed.unit) look.reset();
  };
  const ready = said !== null && said.reason !== '';
  return (
    <div className={classes.inline}>
      <Kept draft={draft} />
      {takeOff ? (
        <TextInput
          label="Why the discount is taken off"
          maxLength={120}
          maw="30rem"
          value={typed.reason}
          onChange={(event) => change({ ...typed, reason: event.currentTarget.value })}
          data-autofocus
        />
      ) : (
        <DiscountInputs value={typed} onChange={change} />
      )}
      <ProblemNote of={look.error ?? give.error} />
      {look.data ? <Difference of={look.data} booked={job.agreement !== null} /> : null}
      <Group mt="sm">
        {look.data ? (
          <Button
            loading={give.isPending}
            disabled={!ready}
            onClick={() => said && whileSending(draft, () => give.mutate({ id: job.id, version: job.version, ...said }))}
          >
            {takeOff ? 'Take it off' : 'Give it'}
          </Button>
        ) : (
          <Button loading={look.isPending} disabled={!ready} onClick={() => said && look.mutate({ id: job.id, ...said })}>
            Show the difference
          </Button>
        )}
        <Button variant="default" onClick={onDone}>
          Leave it
        </Button>
      </Group>
    </div>
  );
}

function Difference({ of: d, booked }: { of: FeeChange; booked: boolean }): ReactNode {
  return (
    <FeeDifference beforeCents={d.beforeCents} afterCents={d.afterCents} lines={d.fee}>
      {d.signed
        ? 'The agreement was signed for the fee before: a new one takes its place and is sent to sign.'
        : booked
          ? 'The agreement and the invoice are issued anew.'
          : null}
    </FeeDifference>
  );
}
