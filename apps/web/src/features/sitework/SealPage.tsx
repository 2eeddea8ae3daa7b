// The end of a visit: how it ended, what is still missing, and the seal. All of it is said on this phone, with or without signal.
import { useEffect, useRef, useState, type ReactNode } from 'react';
import { Button, Checkbox } from '@mantine/core';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import type { MemberRecord } from '@backsight/contract/sitework';
import type { ActWords, SiteAct } from '@backsight/domain/sitework/act';
import { ENDINGS } from '@backsight/domain/sitework/endedAs';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { actEntry, actsHere } from './acts.ts';
import { BeforeClosing } from './BeforeClosing.tsx';
import { keptEnd, missingHere } from './missingHere.ts';
import { MissingList } from './MissingList.tsx';
import { ReturnAlarm } from './ReturnAlarm.tsx';
import { useRecord, type NewAct, type RecordHere } from './useRecord.ts';
import { useWaitForPartner } from './useWaitForPartner.ts';
import { WaitingNote } from './WaitingNote.tsx';
import classes from './sitework.module.css';

const route = getRouteApi('/shell/records/$recordId/seal');
export function SealPage(): ReactNode {
  const { recordId } = route.useParams();
  const { record: data, error, isPending, waiting, addEntries, addAct } = useRecord(recordId);
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
      {data ? <Ending record={data} waiting={waiting} addEntries={addEntries} addAct={addAct} /> : null}
    </Page>
  );
}

type EndingProps = { record: MemberRecord } & Pick<RecordHere, 'waiting' | 'addEntries' | 'addAct'>;

function Ending({ record, waiting, addEntries, addAct }: EndingProps): ReactNode {
  const [failed, setFailed] = useState<unknown>(null);
  useWaitForPartner(record);
  const acts = actsHere(record, waiting);
  const missing = missingHere(record, waiting, acts);
  const [endKept, sealKept] = [keptEnd(waiting, 'end'), keptEnd(waiting, 'seal')];
  const ended = record.endedAs !== null || endKept !== undefined;
  const asked = record.sealAskedBy !== null || sealKept !== undefined;
  const kept = (keeping: Promise<void>): Promise<boolean> =>
    keeping.then(
      () => (setFailed(null), true),
      (error: unknown) => (setFailed(error), false),
    );
  const add = (act: SiteAct, words?: ActWords) => kept(addEntries([actEntry(record, act, words)]));
  useShowSealed(record);
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
      {ended ? (
        <div className={classes.notice}>
          <p>
            The visit ended: {ENDINGS[record.endedAs ?? 'complete']}.{record.endedAs === null ? ' Kept on this phone.' : ''}
          </p>
        </div>
      ) : (
        <End record={record} missing={countOf(missing)} onAct={(act) => void kept(addAct(act))} />
      )}
      <MissingList record={record} missing={missing.filter(({ kind }) => kind === 'entry' || kind === 'member')} />
      {record.state === 'open' && asked ? (
        <div className={classes.notice}>
          <p>Sealed when both phones have sent, nothing is missing and both have signed off. It happens by itself.</p>
        </div>
      ) : null}
      {ended && record.state === 'open' && !asked ? (
        <Seal record={record} missing={missing} onAct={(act) => void kept(addAct(act))} />
      ) : null}
      {record.state === 'sealed' ? (
        <ButtonLink to="/records/$recordId/sealed" params={{ recordId: record.id }} size="xl">
          Show the sealed record
        </ButtonLink>
      ) : null}
    </div>
  );
}

const countOf = (missing: MemberRecord['missing']): number => missing.filter(({ kind }) => kind === 'entry' || kind === 'member').length;

/** Whoever waits here for the seal is shown what was sealed. */
function useShowSealed({ id, state }: MemberRecord): void {
  const navigate = useNavigate();
  const before = useRef(state);
  useEffect(() => {
    if (before.current === 'open' && state === 'sealed') void navigate({ to: '/records/$recordId/sealed', params: { recordId: id } });
    before.current = state;
  }, [id, state, navigate]);
}

type ActProps = { record: MemberRecord; onAct: (act: NewAct) => void };

function End({ record, missing, onAct }: ActProps & { missing: number }): ReactNode {
  const [missed, setMissed] = useState(false);
  const [asking, setAsking] = useState(false);
  const end = () => {
    setAsking(false);
    const body = { endedAs: 'complete', missedWalkThrough: missed };
    onAct({ path: `/api/records/${record.id}/end`, body, says: 'End of the visit', does: 'end' });
  };
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
      <ConfirmDialog opened={asking} title="End the visit" act="End the visit" onClose={() => setAsking(false)} onConfirm={end}>
        <p>
          {missing > 0
            ? 'Nothing is filled in: what is still missing below is wanted before the seal.'
            : 'Nothing is missing. The record can be sealed next.'}
        </p>
      </ConfirmDialog>
    </>
  );
}

/** Asked for on one phone, with or without signal; done by the service when it has everything of both. */
function Seal({ record, missing, onAct }: ActProps & Pick<MemberRecord, 'missing'>): ReactNode {
  const [asking, setAsking] = useState(false);
  const signed = missing.every(({ kind, person }) => kind !== 'sign_off' || person !== record.me);
  const seal = () => {
    setAsking(false);
    onAct({ path: `/api/records/${record.id}/seal`, body: { whenSent: true }, says: 'Seal of the record', does: 'seal' });
  };
  return (
    <>
      <div className={classes.acts}>
        <Button size="xl" disabled={!signed} onClick={() => setAsking(true)}>
          Seal the record
        </Button>
      </div>
      <p className={classes.soft}>
        {signed ? 'It is sealed when both phones have sent, photos too, nothing is missing and both have signed off.' : 'Sign off first.'}
      </p>
      <ConfirmDialog opened={asking} title="Seal the record" act="Seal it" onClose={() => setAsking(false)} onConfirm={seal}>
        <p>
          {missing.length > 0
            ? 'As far as this phone knows something is missing still. It is sealed by itself as soon as everything of both phones is there.'
            : 'Nothing can be added or changed afterwards.'}
        </p>
      </ConfirmDialog>
    </>
  );
}
