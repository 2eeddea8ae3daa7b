// Corrective actions of the firm, open ones first.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { ACTION_KINDS } from '@backsight/contract/callbacks';
import type { CorrectiveAction } from '@backsight/contract/callbacks/actions';
import { actionsQuery } from '../../api/callbacks.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day, When } from '../../ui/When.tsx';

const COLUMNS: Column<CorrectiveAction>[] = [
  {
    key: 'title',
    head: 'Action',
    cell: (a) => <TextLink to="/corrective-actions/$actionId" params={{ actionId: a.id }}>{`${a.number}: ${a.title}`}</TextLink>,
  },
  { key: 'kind', head: 'Kind', cell: (a) => ACTION_KINDS[a.kind] },
  {
    key: 'why',
    head: 'Why',
    cell: (a) => (
      <>
        {a.why}
        <br />
        {a.callbacks.map((c) => (
          <span key={c.id}>
            <TextLink to="/callbacks/$callbackId" params={{ callbackId: c.id }}>{`callback ${c.number}`}</TextLink>{' '}
          </span>
        ))}
      </>
    ),
  },
  { key: 'owner', head: 'Who sees to it', cell: (a) => a.owner },
  { key: 'due', head: 'Due', cell: (a) => (a.kind === 'none' ? '' : <Day day={a.dueOn} />) },
  {
    key: 'review',
    head: 'Review',
    cell: (a) =>
      a.reviewOn ? (
        <>
          <Day day={a.reviewOn} />, {a.reviewer}
        </>
      ) : (
        ''
      ),
  },
  {
    key: 'change',
    head: 'Change',
    cell: (a) =>
      a.revisionId ? (
        <>
          <TextLink
            to="/procedures/revision/$revisionId"
            params={{ revisionId: a.revisionId }}
          >{`${a.procedureTitle}, revision ${a.revisionNumber}`}</TextLink>
          {a.inForceFrom ? (
            <>
              , in force from <When at={a.inForceFrom} />
            </>
          ) : (
            ` (${a.revisionState})`
          )}
        </>
      ) : (
        ''
      ),
  },
  { key: 'state', head: 'State', cell: stateOf },
];

function stateOf(a: CorrectiveAction): ReactNode {
  if (a.state === 'open') return a.reopenedAt ? 'Open again' : 'Open';
  return a.state === 'done' && a.doneAt ? (
    <>
      Done <When at={a.doneAt} />
    </>
  ) : (
    'Dropped'
  );
}

export function ActionsPage(): ReactNode {
  const list = useQuery(actionsQuery());
  return (
    <Page
      title="Corrective actions"
      about="What is changed because of callbacks: a revision of a procedure, training, kit, or nothing with the reason. A revision is done by itself when it is in force."
      actions={<TextLink to="/callbacks">Callbacks</TextLink>}
    >
      <ProblemNote of={list.error} />
      {list.isPending ? <Loading /> : null}
      {list.data?.length === 0 ? <Empty>None yet. They are decided on the page of a callback that has a conclusion.</Empty> : null}
      {list.data && list.data.length > 0 ? (
        <DataTable caption="Corrective actions" columns={COLUMNS} rows={list.data} rowKey={(a) => a.id} />
      ) : null}
    </Page>
  );
}
