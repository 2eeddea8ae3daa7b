// After a visit that ended early: how it ended, what is charged, whether a report is owed, and booking again.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { JobPage as Job } from '@backsight/contract/jobs';
import type { JobDesk } from '@backsight/contract/jobs/desk';
import { ENDINGS } from '@backsight/domain/sitework/endedAs';
import { answerReportOwed, bookAgain, chargeEnding, deskQuery } from '../../api/desk.ts';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Follows } from '../../ui/Follows.tsx';
import { Kept } from '../../ui/Kept.tsx';
import { Money } from '../../ui/Money.tsx';
import { ChargeParts, Parts } from '../../ui/Parts.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { When } from '../../ui/When.tsx';
import { ChooseStart } from './ChooseStart.tsx';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

export function Endings({ job, mayWork }: { job: Job; mayWork: boolean }): ReactNode {
  const desk = useQuery(deskQuery(job.id)).data;
  if (!desk || desk.endings.length === 0) return null;
  return (
    <section aria-label="Ended early">
      <h2>Ended early</h2>
      <ul className={classes.rows}>
        {desk.endings.map((ending) => (
          <Ending key={ending.visitId} ending={ending} />
        ))}
        {mayWork && desk.endingFee ? <Fee job={job} charge={desk.endingFee} /> : null}
        {mayWork && desk.reportOwedOpen ? <Owed job={job} hasRecord={desk.endings[0]!.hasRecord} /> : null}
        {mayWork && desk.bookAgain ? <Again job={job} totals={desk.bookAgain} ready={desk.endingFee === null} /> : null}
      </ul>
    </section>
  );
}

function Ending({ ending }: { ending: JobDesk['endings'][number] }): ReactNode {
  const { kind, waitedMinutes, callsMade, note, hasPhoto, visitId } = ending;
  const facts = [
    waitedMinutes === null ? null : `waited ${waitedMinutes} minutes`,
    callsMade === null ? null : `${callsMade} calls made`,
    note,
  ];
  return (
    <li>
      <div className={classes.words}>
        <strong>{ENDINGS[kind]}</strong>, <When at={ending.endedAt} />, recorded by {ending.by}
        <div className={classes.soft}>
          {facts.filter(Boolean).join(' · ')}
          {hasPhoto ? (
            <>
              {' '}
              · <a href={`/api/visits/${visitId}/ending/photo`}>Photo</a>
            </>
          ) : null}
        </div>
      </div>
    </li>
  );
}

function Fee({ job, charge }: { job: Job; charge: NonNullable<JobDesk['endingFee']> }): ReactNode {
  const {
    values: { waive, reason },
    setValues,
    draft,
  } = useDraft({ waive: false, reason: '' }, `ending fee ${job.id}`);
  const send = useChange(chargeEnding, 'The fee is decided, and the invoice says it.', ({ toGiveBackCents }) => {
    if (toGiveBackCents > 0) saved('More was paid than is charged: the rest is to be given back.');
  });
  return (
    <li>
      <div className={classes.words}>
        <strong>Fee</strong>
        <ChargeParts charge={waive ? { ...charge, percent: 0, cents: 0 } : charge} because={waive ? 'Waived by the firm' : 'By the rule'} />
        <Kept draft={draft} />
        <ProblemNote of={send.error} />
        <Checkbox
          mt="xs"
          label="Waive it"
          checked={waive}
          onChange={(event) => setValues({ reason, waive: event.currentTarget.checked })}
        />
        {waive ? (
          <TextInput
            label="Why"
            value={reason}
            onChange={(event) => setValues({ waive, reason: event.currentTarget.value })}
            maxLength={500}
            required
          />
        ) : null}
      </div>
      <Button
        size="compact-md"
        loading={send.isPending}
        onClick={() => whileSending(draft, () => send.mutate({ id: job.id, version: job.version, waive, reason }))}
      >
        {waive || charge.cents === 0 ? (
          'Charge nothing'
        ) : (
          <>
            Charge&nbsp;
            <Money cents={charge.cents} />
          </>
        )}
      </Button>
    </li>
  );
}

function Owed({ job, hasRecord }: { job: Job; hasRecord: boolean }): ReactNode {
  const send = useChange(answerReportOwed, 'Noted.');
  const say = (owed: boolean) => send.mutate({ id: job.id, version: job.version, owed });
  return (
    <li>
      <div className={classes.words}>
        <strong>Report</strong>: is one owed? {hasRecord ? '' : 'Nothing was recorded that it could say.'}
        <ProblemNote of={send.error} />
      </div>
      <Group gap="xs">
        {hasRecord ? (
          <Button size="compact-md" variant="default" onClick={() => say(true)}>
            A report is owed
          </Button>
        ) : null}
        <Button size="compact-md" variant="default" onClick={() => say(false)}>
          No report
        </Button>
        <Follows>The answer stays: the list of reports due and the fee follow it.</Follows>
      </Group>
    </li>
  );
}

type Totals = NonNullable<JobDesk['bookAgain']>;

/** What the job costs once it is booked again, said before it is. */
function Total({ totals: { chargedCents, againCents, onceCents }, again }: { totals: Totals; again: boolean }): ReactNode {
  const together = again ? againCents : onceCents;
  return (
    <Parts
      label="Fee once it is booked again"
      parts={[
        ...(again && chargedCents > 0
          ? [
              { name: 'Fee of the new visit', cents: againCents - chargedCents },
              { name: 'Charged for the visit that ended early', cents: chargedCents },
            ]
          : []),
        { name: again ? 'Together' : 'Fee of both visits together', cents: together, sum: true },
      ]}
    />
  );
}

function Again({ job, totals, ready }: { job: Job; totals: Totals; ready: boolean }): ReactNode {
  const [open, setOpen] = useState(false);
  const [feeAgain, setFeeAgain] = useState(true);
  const send = useChange(bookAgain, 'Booked again, and the client was told by mail.', ({ warnings }) => {
    for (const { text } of warnings) saved(text);
    setOpen(false);
  });
  return (
    <li>
      <div className={classes.words}>
        <strong>What next</strong>: the same job can be booked again; the agreement stands. {ready ? '' : 'Decide the fee first.'}
      </div>
      {open ? (
        <div className={classes.inline}>
          <Checkbox
            mb="sm"
            label="The fee is due again, besides what was charged"
            checked={feeAgain}
            onChange={(event) => setFeeAgain(event.currentTarget.checked)}
          />
          <Total totals={totals} again={feeAgain} />
          <ChooseStart
            job={job}
            kind={job.kind}
            without={null}
            act="Book again"
            busy={send.isPending}
            error={send.error}
            onClose={() => setOpen(false)}
            onStart={(start) => send.mutate({ id: job.id, version: job.version, start, feeAgain })}
          />
        </div>
      ) : (
        <Button size="compact-md" disabled={!ready} onClick={() => setOpen(true)}>
          Book again
        </Button>
      )}
    </li>
  );
}
