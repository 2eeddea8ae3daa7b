// The callbacks of the firm: open ones by danger and due time, narrowed, counted in groups, taken along as a table.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { KINDS, SPEAKERS, STATES, type CallbackLine } from '@backsight/contract/callbacks';
import { callbackGroupsQuery, callbacksQuery, callbackTable } from '../../api/callbackLists.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day, When } from '../../ui/When.tsx';
import { CallbackFilters } from './CallbackFilters.tsx';
import { CallbackGroups } from './CallbackGroups.tsx';
import { PARTS, partsIn, readListSearch, type ListSearch, type Part } from './listSearch.ts';
import { clockText, judges } from './words.ts';

const route = getRouteApi('/shell/callbacks');

const columns = (zone: string): Column<CallbackLine>[] => [
  {
    key: 'number',
    head: 'Number',
    oneLine: true,
    cell: (c) => (
      <TextLink to="/callbacks/$callbackId" params={{ callbackId: c.id }}>
        {c.number}
      </TextLink>
    ),
  },
  {
    key: 'what',
    head: 'What',
    sentences: true,
    cell: (c) => (
      <>
        {c.safety ? (
          <>
            <strong>Danger</strong>:{' '}
          </>
        ) : null}
        {KINDS[c.kind]}
        <br />
        {c.place}
      </>
    ),
  },
  {
    key: 'due',
    head: 'Due',
    cell: (c) =>
      c.deadlineOn ? (
        <>
          Paper: answer by <Day day={c.deadlineOn} />
        </>
      ) : (
        clockText(c.clock, zone) || 'no clock runs'
      ),
  },
  { key: 'state', head: 'State', cell: (c) => STATES[c.state] },
  {
    key: 'who',
    head: 'Who and where',
    sentences: true,
    cell: (c) => (
      <>
        {SPEAKERS[c.speaker]}
        {c.party ? `: ${c.party}` : ''}
        <br />
        {c.address}, {c.town} (job {c.jobNumber})
      </>
    ),
  },
  { key: 'received', head: 'Received', cell: (c) => <When at={c.receivedAt} /> },
];

export function CallbacksPage(): ReactNode {
  const me = useMe();
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const judge = judges(me.roles);
  const change: Change = (part) => void navigate({ search: (before) => readListSearch({ ...before, before: undefined, ...part }) });
  const actions = (
    <>
      {judge ? (
        <ButtonLink to="/corrective-actions" variant="default">
          Corrective actions
        </ButtonLink>
      ) : null}
      <ButtonLink to="/callbacks/new" search={{ kind: 'near_miss' }} variant="default">
        Record a near-miss
      </ButtonLink>
      <ButtonLink to="/callbacks/new">Take one in</ButtonLink>
    </>
  );
  return (
    <Page
      title="Callbacks"
      about="Anything brought against the firm's work, questions, and near-misses. Danger first, then what is due first."
      actions={actions}
    >
      <CallbackFilters search={search} judge={judge} onChange={change} />
      {judge ? <WayBack search={search} /> : null}
      {search.by ? (
        <CallbackGroups search={search} by={search.by} />
      ) : (
        <List search={search} zone={me.zone} onTake={(part) => change({ [part]: part === 'which' ? 'all' : undefined })} />
      )}
      <Export search={search} judge={judge} />
    </Page>
  );
}

/** From the callbacks of a step or a revision to where it is written, and to its figures. */
function WayBack({ search: { step, revision } }: { search: ListSearch }): ReactNode {
  const found = useQuery({ ...callbackGroupsQuery({ which: 'all', by: 'step', step }), enabled: step !== undefined }).data?.[0];
  if (!step && !revision) return null;
  return (
    <p>
      {step ? `Traced to the step ${found?.label ?? step}. ` : 'Traced to steps of one revision. '}
      {found?.procedureId ? (
        <TextLink to="/procedures/$procedureId" params={{ procedureId: found.procedureId }}>
          Its procedure
        </TextLink>
      ) : null}{' '}
      {revision ? (
        <TextLink to="/procedures/revision/$revisionId" params={{ revisionId: revision }}>
          The revision
        </TextLink>
      ) : null}{' '}
      <TextLink to="/liabilities/steps">Figures of the steps</TextLink>
    </p>
  );
}

type Change = (part: Partial<Record<keyof ListSearch, string | undefined>>) => void;

function List({ search, zone, onTake }: { search: ListSearch; zone: string; onTake: (part: Part) => void }): ReactNode {
  const { by: _, ...find } = search;
  const { data, error, isPending } = useQuery(callbacksQuery(find));
  return (
    <>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {error ? <Narrowed search={search} onTake={onTake} /> : null}
      {data?.items.length === 0 ? <Nothing search={search} onTake={onTake} /> : null}
      {data && data.items.length > 0 ? (
        <DataTable caption="Callbacks" columns={columns(zone)} rows={data.items} rowKey={(c) => c.id} />
      ) : null}
      {data?.next && (search.which ?? 'open') === 'open' ? (
        <p>{`The newest ${data.items.length} are here, danger and what is due first among them. There are older ones that are open too.`}</p>
      ) : null}
      {data?.next ? (
        <ButtonLink to="/callbacks" search={{ ...search, before: Number(data.next) }} variant="default" mt="md">
          Older ones
        </ButtonLink>
      ) : null}
    </>
  );
}

/** Says why the list is empty, and offers to take away what narrows it. */
function Nothing({ search, onTake }: { search: ListSearch; onTake: (part: Part) => void }): ReactNode {
  const parts = partsIn({ which: 'open', ...search });
  if (search.before !== undefined)
    return (
      <Empty
        action={
          <ButtonLink to="/callbacks" search={{ ...search, before: undefined }} variant="default">
            To the newest
          </ButtonLink>
        }
      >
        There are none older than these.
      </Empty>
    );
  if (parts.length === 0) return <Empty>There are none yet.</Empty>;
  if (parts.length === 1 && parts[0] === 'which')
    return <Empty>{search.which === 'closed' ? 'None is closed.' : 'Nothing is open.'}</Empty>;
  return <Empty action={<Narrowed search={search} onTake={onTake} />}>Nothing fits all of this at once.</Empty>;
}

const Narrowed = ({ search, onTake }: { search: ListSearch; onTake: (part: Part) => void }): ReactNode => (
  <Group gap="xs">
    {partsIn({ which: 'open', ...search }).map((part) => (
      <Button key={part} variant="default" size="compact-sm" onClick={() => onTake(part)}>{`Without ${PARTS[part]}`}</Button>
    ))}
  </Group>
);

/** The table of those that fit; what is confidential comes along only when it is asked for. */
function Export({ search, judge }: { search: ListSearch; judge: boolean }): ReactNode {
  const [opinions, setOpinions] = useState(false);
  const [money, setMoney] = useState(false);
  const { by: _, before: _before, ...find } = search;
  const address = callbackTable(find, { ...(opinions ? { opinions: 'yes' } : {}), ...(money ? { money: 'yes' } : {}) });
  return (
    <Group mt="lg" align="center">
      <a href={address} download>
        Those that fit as a table (CSV)
      </a>
      {judge ? (
        <>
          <Checkbox label="with conclusions (opinions)" checked={opinions} onChange={(e) => setOpinions(e.currentTarget.checked)} />
          <Checkbox label="with money" checked={money} onChange={(e) => setMoney(e.currentTarget.checked)} />
        </>
      ) : null}
    </Group>
  );
}
