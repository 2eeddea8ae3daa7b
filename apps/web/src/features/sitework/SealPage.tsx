// The end of a visit: how it ended, what is still missing, and the seal.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import type { MemberRecord } from '@backsight/contract/sitework';
import type { ActWords, SiteAct } from '@backsight/domain/sitework/act';
import { ENDINGS } from '@backsight/domain/sitework/seal';
import { newId } from '../../api/ids.ts';
import { isWaiting } from '../../api/phone/outbox.ts';
import { endVisit, sealRecord } from '../../api/sitework.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { actEntry, actsHere } from './acts.ts';
import { BeforeClosing } from './BeforeClosing.tsx';
import { MissingList } from './MissingList.tsx';
import { ReturnAlarm } from './ReturnAlarm.tsx';
import { useRecord, type RecordHere } from './useRecord.ts';
import { WaitingNote } from './WaitingNote.tsx';
import classes from './sitework.module.css';

const route = getRouteApi('/shell/records/$recordId/seal');
export function SealPage(): ReactNode {
  const { recordId } = route.useParams();
  const { record: data, error, isPending, waiting, addEntries } = useRecord(recordId);
  return (
    <Page
      title="End and seal"
      width="narrow"
      about={data ? `${data.visit.address}, job ${data.visit.jobNumber}` : undefined}
      actions={
        <ButtonLink to="/records/$recordId" params={{ recordId }} variant="default" size="lg">
          Back to the steps
        </ButtonLink>
      }
    >
      {data ? null : <ProblemNote of={error} />}
      {isPending ? <Loading /> : null}
      {data ? <Ending record={data} waiting={waiting} addEntries={addEntries} /> : null}
    </Page>
  );
}

type EndingProps = { record: MemberRecord } & Pick<RecordHere, 'waiting' | 'addEntries'>;

function Ending({ record, waiting, addEntries }: EndingProps): ReactNode {
  const open = waiting.filter(isWaiting).length;
  const missing = record.missing.filter(({ kind }) => kind === 'entry' || kind === 'member');
  const left = record.missing.filter(({ kind }) => kind !== 'ending').length;
  const [failed, setFailed] = useState<unknown>(null);
  const acts = actsHere(record, waiting);
  const add = (act: SiteAct, words?: ActWords): Promise<boolean> =>
    addEntries([actEntry(record, act, words)]).then(
      () => (setFailed(null), true),
      (error: unknown) => (setFailed(error), false),
    );
  return (
    <div className={classes.work}>
      <WaitingNote waiting={waiting} recordId={record.id} />
      <ProblemNote of={failed} />
      {record.state === 'open' ? (
        <>
          <ReturnAlarm record={record} acts={acts} onOut={(act) => void add(act)} />
          <BeforeClosing record={record} acts={acts} add={add} />
        </>
      ) : null}
      {record.endedAs === null ? (
        <End record={record} missing={missing.length} />
      ) : (
        <div className={classes.notice}>
          <p>The visit ended: {ENDINGS[record.endedAs]}.</p>
        </div>
      )}
      <MissingList record={record} missing={missing} />
      {record.endedAs !== null && record.state === 'open' ? <Seal record={record} blocked={left > 0 || open > 0} /> : null}
      {record.state === 'sealed' ? (
        <ButtonLink to="/records/$recordId/sealed" params={{ recordId: record.id }} size="xl">
          Show the sealed record
        </ButtonLink>
      ) : null}
    </div>
  );
}

function End({ record, missing }: { record: MemberRecord; missing: number }): ReactNode {
  const queries = useQueryClient();
  const [missed, setMissed] = useState(false);
  const [asking, setAsking] = useState(false);
  const [key] = useState(newId);
  const end = useMutation({
    mutationFn: endVisit,
    onSuccess: async () => {
      setAsking(false);
      await queries.invalidateQueries({ queryKey: ['record', record.id] });
    },
  });
  return (
    <>
      <Checkbox
        size="lg"
        mt="xl"
        mb="md"
        label="The client missed the walk-through"
        description="The office then offers it by phone."
        checked={missed}
        onChange={(event) => setMissed(event.currentTarget.checked)}
      />
      <div className={classes.acts}>
        <Button size="xl" onClick={() => setAsking(true)}>
          End the visit
        </Button>
        <ButtonLink to="/visits/$visitId/ending" params={{ visitId: record.visit.id }} variant="default" size="lg">
          It ended early
        </ButtonLink>
      </div>
      <ConfirmDialog
        opened={asking}
        title="End the visit"
        act="End the visit"
        busy={end.isPending}
        error={end.error}
        onClose={() => setAsking(false)}
        onConfirm={() => end.mutate({ recordId: record.id, endedAs: 'complete', missedWalkThrough: missed, key: `${key}-${missed}` })}
      >
        <p>
          {missing > 0
            ? 'Nothing is filled in: what is still missing below is wanted before the seal.'
            : 'Nothing is missing. The record can be sealed next.'}
        </p>
      </ConfirmDialog>
    </>
  );
}

function Seal({ record, blocked }: { record: MemberRecord; blocked: boolean }): ReactNode {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const [asking, setAsking] = useState(false);
  const [key] = useState(newId);
  const seal = useMutation({
    mutationFn: sealRecord,
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['record', record.id] });
      await navigate({ to: '/records/$recordId/sealed', params: { recordId: record.id } });
    },
  });
  return (
    <>
      <div className={classes.acts}>
        <Button size="xl" disabled={blocked} onClick={() => setAsking(true)}>
          Seal the record
        </Button>
      </div>
      {blocked ? (
        <p className={classes.soft}>It can be sealed when nothing is missing, both have signed off and everything is sent, photos too.</p>
      ) : null}
      <ConfirmDialog
        opened={asking}
        title="Seal the record"
        act="Seal it"
        busy={seal.isPending}
        error={seal.error}
        onClose={() => setAsking(false)}
        onConfirm={() => seal.mutate({ recordId: record.id, key })}
      >
        <p>Nothing can be added or changed afterwards.</p>
      </ConfirmDialog>
    </>
  );
}
