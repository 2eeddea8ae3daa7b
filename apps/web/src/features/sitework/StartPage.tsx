// The start of a visit: the gate, what each of the pair acknowledges, and the things that steps are done for.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import { siteworkRoutes } from '@backsight/contract/sitework';
import type { Ahead, AheadVisit } from '@backsight/contract/sitework/ahead';
import type { ReplyOf } from '@backsight/contract/route';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { useDraft } from '../../api/phone/drafts.ts';
import { useOutbox } from '../../api/phone/outbox.ts';
import { useReached } from '../../api/reached.ts';
import { useSignings } from '../../api/signings.ts';
import { aheadQuery, openRecord, startQuery } from '../../api/sitework.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { GateNote } from './GateNote.tsx';
import { StartItems, type NamedItem } from './StartItems.tsx';
import { SyncNote } from './SyncNote.tsx';
import { useStart, type Starting } from './useStart.ts';
import classes from './sitework.module.css';

const route = getRouteApi('/shell/visits/$visitId/start');
type Start = ReplyOf<typeof siteworkRoutes.start>;

export function StartPage(): ReactNode {
  const { visitId } = route.useParams();
  const { data: read, error, isPending, dataUpdatedAt } = useQuery(startQuery(visitId));
  const { data: ahead } = useQuery(aheadQuery);
  const here = ahead?.visits.find(({ start }) => start.visit.id === visitId);
  const data = read ?? here?.start;
  return (
    <Page
      title={data ? data.visit.address : 'Start the visit'}
      width="narrow"
      about={
        data ? (
          <>
            Job {data.visit.jobNumber}, <When at={data.visit.startsAt} until={data.visit.endsAt} />
          </>
        ) : undefined
      }
    >
      <SyncNote readAt={dataUpdatedAt} />
      {data ? null : <ProblemNote of={error} />}
      {isPending && !data ? <Loading /> : null}
      {data ? <Ready key={data.visit.id} start={data} ahead={ahead} here={here} /> : null}
    </Page>
  );
}

type Props = { start: Start; ahead: Ahead | undefined; here: AheadVisit | undefined };

/** Names that both phones give to what is suggested, so that they mean the same things. */
const suggested = ({ start, here }: Props): NamedItem[] => start.items.map((item, at) => ({ ...item, id: here?.itemIds[at] ?? newId() }));

function Ready({ start, ahead, here }: Props): ReactNode {
  const { visit } = start;
  const navigate = useNavigate();
  const signed = useSignedHere(visit.jobId);
  const online = useReached();
  const openedHere = useOutbox().some(({ what, recordId }) => recordId === here?.recordId && what.kind === 'act' && what.opens);
  const [blank] = useState(() => ({
    items: suggested({ start, ahead, here }),
    systems: start.systems.filter((one) => one.suggested).map(({ system }) => system),
  }));
  const [{ items, systems }, change, started] = useDraft(visit.id, 'start', blank);
  const [said, setSaid] = useState<string[]>([]);
  const toRecord = (recordId: string) => void navigate({ to: '/records/$recordId', params: { recordId } });
  const local = useStart(ahead, here?.offerId ? here : undefined);
  const open = useOpenNow(visit.id, (opened) => {
    started();
    toRecord(opened);
  });
  const recordId = visit.recordId ?? (openedHere ? here?.recordId : null);
  if (recordId)
    return (
      <ButtonLink to="/records/$recordId" params={{ recordId }} size="xl">
        Go on with the record
      </ButtonLink>
    );
  const acknowledged = start.acknowledgements
    .filter((a) => said.includes(a.personId + a.revisionId))
    .map(({ personId, revisionId }) => ({ personId, revisionId }));
  const how = { items: items.filter(({ label }) => label.trim() !== ''), systems, acknowledged };
  const begin = async () => {
    if (!here?.offerId) return open.begin(how);
    if (!(await local.begin(how))) return;
    started();
    toRecord(here.recordId);
  };
  const why = online ? null : notWithoutSignal(start, acknowledged.length, signed);
  return (
    <div className={classes.work}>
      <GateNote visitId={visit.id} jobId={visit.jobId} gate={start.gate} />
      <Acknowledgements asked={start.acknowledgements} said={said} onChange={setSaid} />
      {start.systems.length > 0 ? (
        <Checkbox.Group
          label="What is looked at again"
          description="Arrival and leaving are always part of it."
          value={systems}
          onChange={(chosen) => change({ systems: chosen })}
        >
          {start.systems.map(({ system, title }) => (
            <Checkbox key={system} value={system} label={title} size="lg" mt="sm" />
          ))}
        </Checkbox.Group>
      ) : null}
      <StartItems items={items} onChange={(named) => change({ items: named })} />
      {visit.kit.length > 0 ? <p>With you: {visit.kit.join(', ')}</p> : null}
      <ProblemNote of={open.error} />
      {(local.refused ?? why) ? (
        <p role="alert" className={classes.caution}>
          {local.refused ?? why}
        </p>
      ) : null}
      <div className={classes.acts}>
        <Button size="xl" fullWidth loading={open.isPending || local.busy} disabled={why !== null} onClick={() => void begin()}>
          Start the visit
        </Button>
        <ButtonLink to="/visits/$visitId/ending" params={{ visitId: visit.id }} variant="default" size="lg">
          We cannot start: end the visit
        </ButtonLink>
        <ButtonLink to="/my-day" variant="default" size="lg">
          Back to my day
        </ButtonLink>
      </div>
    </div>
  );
}

/** Starts with the service at once: for those who were handed nothing ahead. */
function useOpenNow(visitId: string, then: (recordId: string) => void) {
  const queries = useQueryClient();
  const [{ id, key }] = useState(() => ({ id: newId(), key: newId() }));
  const open = useMutation({
    mutationFn: openRecord,
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['my-day'] });
      then(id);
    },
  });
  const begin = (how: Starting) =>
    open.mutate({ visitId, id, key: `${key}-${how.acknowledged.length}-${how.items.length}-${how.systems.length}`, ...how });
  return { ...open, begin };
}

const useSignedHere = (jobId: string): boolean => useSignings(useMe().id).some((one) => one.jobId === jobId && !one.refused && !one.late);

/** Why a visit cannot start while nobody can be asked: what was missing when it was handed out, unless it was settled on this phone. */
function notWithoutSignal({ gate, acknowledgements }: Start, acknowledged: number, signed: boolean): string | null {
  if (acknowledged < acknowledgements.length) return 'Each of you first says that the changed procedures are read.';
  if (gate.open) return null;
  const left = gate.missing.filter((code) => code !== 'acknowledgement' && !(code === 'agreement-unsigned' && signed));
  return left.length === 0
    ? null
    : 'There is no connection, and something was still missing when this was read last. Call the office, or sign here.';
}

function Acknowledgements({
  asked,
  said,
  onChange,
}: {
  asked: Start['acknowledgements'];
  said: string[];
  onChange: (said: string[]) => void;
}): ReactNode {
  if (asked.length === 0) return null;
  return (
    <Checkbox.Group
      label="Procedures have changed"
      description="Each of you reads the change and says so."
      value={said}
      onChange={onChange}
      mb="md"
    >
      {asked.map((a) => (
        <Checkbox
          key={a.personId + a.revisionId}
          value={a.personId + a.revisionId}
          size="lg"
          mt="sm"
          label={`${a.person}: I have read revision ${a.number} of ${a.title} and will work by it`}
        />
      ))}
    </Checkbox.Group>
  );
}
