// Putting a visit down where it is held: the fee and the late charge as the consequences say, why it is moved, and the act.
import { useEffect, useState, type ReactNode, type RefObject } from 'react';
import { Button, TextInput } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import type { Rehearsal } from '@backsight/contract/schedule';
import { moveVisit, type ChosenStart } from '../../api/schedule.ts';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { Money } from '../../ui/Money.tsx';
import { MoveFee } from '../../ui/MoveFee.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { useSend } from '../../ui/useSend.ts';
import { WaiveLate } from '../../ui/WaiveLate.tsx';
import type { Held } from './spot.ts';

/** What was moved, so that it can be put back. */
export type Sent = Pick<Held, 'visit' | 'was' | 'carrier'> & { told: number };
type Props = {
  held: Held;
  start: ChosenStart;
  /** What the move would come to; nothing is put down before it is known. */
  of: Rehearsal | undefined;
  /** Set to what Enter does. */
  putRef: RefObject<(() => void) | null>;
  onDone: (sent: Sent) => void;
};

export function PutDown({ held, start, of, putRef, onDone }: Props): ReactNode {
  const { visit } = held;
  const { values, setValues, draft } = useDraft({ why: '' }, `put down ${visit.id}`);
  const [waiver, setWaiver] = useState<string | null>(null);
  const [kept, setKept] = useState<string | null>(null);
  const queries = useQueryClient();
  const move = useSend(moveVisit, {
    refresh: ['week'],
    said: `${visit.address} was moved.`,
    then: ({ warnings }) => {
      void queries.invalidateQueries({ queryKey: ['jobs'] });
      for (const { text } of warnings) saved(text);
      onDone({ visit, was: held.was, carrier: held.carrier, told: of?.told.length ?? 0 });
    },
  });
  const ready = of !== undefined && of.problem === null && !move.isPending;
  const send = () => {
    if (!ready) return;
    const fee = { waive: waiver !== null, waiver: waiver ?? '', keepFee: kept !== null, keptBecause: kept ?? '' };
    const sent = { id: visit.id, version: visit.version, start, ...fee, toldCents: of.fee?.afterCents ?? null, ...values };
    whileSending(draft, () => move.mutate(sent));
  };
  useEffect(() => {
    putRef.current = send;
    return () => {
      putRef.current = null;
    };
  });
  const fees = of?.problem === null ? of.fee : null;
  const late = fees?.lateCents ?? 0;
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        send();
      }}
    >
      <Kept draft={draft} />
      <ProblemNote of={move.error} />
      {late > 0 ? (
        <>
          <p>
            Moving {of?.lateBecause} costs <Money cents={late} /> besides the fee.
          </p>
          <WaiveLate waiver={waiver} onChange={setWaiver} />
        </>
      ) : null}
      {fees ? <MoveFee change={fees} lateCents={waiver === null ? late : 0} kept={kept} onKeep={setKept} /> : null}
      <TextInput
        mb="sm"
        label="Why it is moved"
        description="For the history of the job; optional."
        maxLength={500}
        value={values.why}
        onChange={(event) => setValues({ why: event.currentTarget.value })}
      />
      <Button type="submit" disabled={!ready} loading={move.isPending}>
        Put it down here
      </Button>
    </form>
  );
}
