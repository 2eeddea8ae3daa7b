// Moving a visit: a start is chosen, what it makes of the fee is shown, and the fee may be kept as agreed with a reason.
import { useState, type ComponentProps, type ReactNode } from 'react';
import { useQuery, useQueryClient } from '@tanstack/react-query';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { deskQuery } from '../../api/desk.ts';
import { moveFeeQuery, moveVisit } from '../../api/schedule.ts';
import { MoveFee } from '../../ui/MoveFee.tsx';
import type { PickedStart } from '../../ui/PickStart.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { ChooseStart } from './ChooseStart.tsx';
import { LateFee } from './LateFee.tsx';
import { TellProviders } from './TellProviders.tsx';
import { useChange } from './useChange.ts';

type Props = { job: Job; visit: Job['visits'][number]; onDone: () => void };

export function MoveVisit({ job, visit, onDone }: Props): ReactNode {
  const queries = useQueryClient();
  const [waiver, setWaiver] = useState<string | null>(null);
  const [kept, setKept] = useState<string | null>(null);
  const desk = useQuery(deskQuery(job.id)).data;
  const late = visit.kind === job.kind ? (desk?.lateMove ?? null) : null;
  const said = job.state === 'held' ? 'The visit was moved.' : 'The visit was moved, and the client was told by mail.';
  const move = useChange(moveVisit, said, ({ warnings }) => {
    for (const { text } of warnings) saved(text);
    onDone();
  });
  const agreed = job.feeLines.reduce((sum, { cents }) => sum + cents, 0);
  /** Another fee than the one that is shown is refused; as long as none is shown, than the one agreed. */
  const send = (start: PickedStart) =>
    move.mutate({
      id: visit.id,
      version: visit.version,
      start,
      waive: waiver !== null,
      waiver: waiver ?? '',
      keepFee: kept !== null,
      keptBecause: kept ?? '',
      toldCents: queries.getQueryData(moveFeeQuery(visit.id, start.startsAt).queryKey)?.afterCents ?? agreed,
    });
  return (
    <ChooseStart
      job={job}
      kind={visit.kind}
      without={visit.id}
      act="Move the visit"
      busy={move.isPending}
      error={move.error}
      onClose={onDone}
      before={
        <>
          {job.state === 'booked' && visit.kind === job.kind ? <TellProviders job={job} /> : null}
          {late ? <LateFee late={late} what="moved" waiver={waiver} onChange={setWaiver} /> : null}
        </>
      }
      about={({ startsAt }) => (
        <NewFee visitId={visit.id} startsAt={startsAt} lateCents={waiver === null ? (late?.cents ?? 0) : 0} kept={kept} onKeep={setKept} />
      )}
      onStart={send}
    />
  );
}

type NewFeeProps = Omit<ComponentProps<typeof MoveFee>, 'change'> & { visitId: string; startsAt: string };

function NewFee({ visitId, startsAt, ...rest }: NewFeeProps): ReactNode {
  const { data, error } = useQuery(moveFeeQuery(visitId, startsAt));
  return data ? <MoveFee change={data} {...rest} /> : <ProblemNote of={error} />;
}
