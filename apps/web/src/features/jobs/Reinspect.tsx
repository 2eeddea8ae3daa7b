// Holds a time for a re-inspection: the items it is limited to, the fee agreed for them, and a start.
import { useState, type ReactNode } from 'react';
import { Button, Textarea, TextInput } from '@mantine/core';
import { useNavigate } from '@tanstack/react-router';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { holdReinspection } from '../../api/crew.ts';
import { newId } from '../../api/ids.ts';
import { centsOf } from '../../ui/amount.ts';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { saved } from '../../ui/saved.ts';
import { ChooseStart } from './ChooseStart.tsx';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

const KIND = 'reinspection';

export function Reinspect({ job }: { job: Job }): ReactNode {
  const navigate = useNavigate();
  const [open, setOpen] = useState(false);
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const { values, setValues, draft } = useDraft({ typed: '', fee: '' }, KIND);
  const { typed, fee } = values;
  const send = useChange(holdReinspection, 'The re-inspection is held.', ({ id, warnings }) => {
    for (const { text } of warnings) saved(text);
    void navigate({ to: '/jobs/$jobId', params: { jobId: id } });
  });
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        Book a re-inspection
      </Button>
    );
  const items = typed
    .split('\n')
    .map((line) => line.trim())
    .filter(Boolean);
  const cents = centsOf(fee);
  return (
    <div className={classes.inline}>
      <Kept draft={draft} />
      <Textarea
        label="What is looked at again, one item a line"
        value={typed}
        onChange={(event) => setValues({ typed: event.currentTarget.value, fee })}
        autosize
        minRows={3}
        required
      />
      <TextInput
        label="Fee agreed, in dollars"
        value={fee}
        onChange={(event) => setValues({ typed, fee: event.currentTarget.value })}
        inputMode="decimal"
        maw="12rem"
        my="sm"
        required
      />
      {items.length === 0 || Number.isNaN(cents) ? <p className={classes.soft}>Still needed: at least one item, and the fee.</p> : null}
      <ChooseStart
        job={job}
        kind={KIND}
        without={null}
        act="Hold the re-inspection"
        busy={send.isPending}
        error={send.error}
        onClose={() => setOpen(false)}
        onStart={(start) => {
          if (items.length > 0 && !Number.isNaN(cents))
            whileSending(draft, () => send.mutate({ parentId: job.id, ...ids, items, cents, start }));
        }}
      />
    </div>
  );
}
