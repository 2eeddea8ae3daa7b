// The start of a visit: the gate, what each of the pair acknowledges, and the things that steps are done for.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import { siteworkRoutes } from '@backsight/contract/sitework';
import type { ReplyOf } from '@backsight/contract/route';
import { newId } from '../../api/ids.ts';
import { openRecord, startQuery } from '../../api/sitework.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { GateNote } from './GateNote.tsx';
import { StartItems, type NamedItem } from './StartItems.tsx';
import classes from './sitework.module.css';

const route = getRouteApi('/shell/visits/$visitId/start');
type Start = ReplyOf<typeof siteworkRoutes.start>;

export function StartPage(): ReactNode {
  const { visitId } = route.useParams();
  const { data, error, isPending } = useQuery(startQuery(visitId));
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
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Ready key={data.visit.id} start={data} /> : null}
    </Page>
  );
}

function Ready({ start }: { start: Start }): ReactNode {
  const { visit } = start;
  const navigate = useNavigate();
  const queries = useQueryClient();
  const [{ id, key }] = useState(() => ({ id: newId(), key: newId() }));
  const [items, setItems] = useState<NamedItem[]>(() => start.items.map((item) => ({ ...item, id: newId() })));
  const [systems, setSystems] = useState<string[]>([]);
  const [said, setSaid] = useState<string[]>([]);
  const open = useMutation({
    mutationFn: openRecord,
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['my-day'] });
      await navigate({ to: '/records/$recordId', params: { recordId: id } });
    },
  });
  if (visit.recordId)
    return (
      <ButtonLink to="/records/$recordId" params={{ recordId: visit.recordId }} size="xl">
        Go on with the record
      </ButtonLink>
    );
  const acknowledged = start.acknowledgements
    .filter((a) => said.includes(a.personId + a.revisionId))
    .map(({ personId, revisionId }) => ({ personId, revisionId }));
  const begin = () =>
    open.mutate({
      visitId: visit.id,
      key: `${key}-${acknowledged.length}-${items.length}-${systems.length}`,
      id,
      systems,
      acknowledged,
      items: items.filter(({ label }) => label.trim() !== ''),
    });
  return (
    <div className={classes.work}>
      <GateNote visitId={visit.id} jobId={visit.jobId} gate={start.gate} />
      <Acknowledgements asked={start.acknowledgements} said={said} onChange={setSaid} />
      {start.systems.length > 0 ? (
        <Checkbox.Group
          label="What is looked at again"
          description="Arrival and leaving are always part of it."
          value={systems}
          onChange={setSystems}
        >
          {start.systems.map(({ system, title }) => (
            <Checkbox key={system} value={system} label={title} size="lg" mt="sm" />
          ))}
        </Checkbox.Group>
      ) : null}
      <StartItems items={items} onChange={setItems} />
      {visit.kit.length > 0 ? <p>With you: {visit.kit.join(', ')}</p> : null}
      <ProblemNote of={open.error} />
      <div className={classes.acts}>
        <Button size="xl" fullWidth loading={open.isPending} onClick={begin}>
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
