// Corrective actions of the firm, open ones first.
import { Fragment, type ReactNode } from 'react';
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
  { key: 'why', head: 'Why', sentences: true, cell: whyOf },
  { key: 'change', head: 'What changes', cell: changeOf },
  { key: 'who', head: 'Who, and by when', cell: whoOf },
  { key: 'state', head: 'State', cell: stateOf },
];

function whyOf(a: CorrectiveAction): ReactNode {
  return (
    <>
      {a.why}
      <br />
      {a.callbacks.length === 1 ? 'Callback ' : 'Callbacks '}
      {a.callbacks.map((c, at) => (
        <Fragment key={c.id}>
          {at > 0 ? ', ' : ''}
          <TextLink to="/callbacks/$callbackId" params={{ callbackId: c.id }}>
            {c.number}
          </TextLink>
        </Fragment>
      ))}
    </>
  );
}

function changeOf(a: CorrectiveAction): ReactNode {
  return (
    <>
      {ACTION_KINDS[a.kind]}
      {a.revisionId ? (
        <>
          :{' '}
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
      ) : null}
    </>
  );
}

function whoOf(a: CorrectiveAction): ReactNode {
  return (
    <>
      {a.owner}
      {a.kind === 'none' ? null : (
        <>
          , by <Day day={a.dueOn} />
        </>
      )}
      {a.reviewOn ? (
        <>
          ; {a.reviewer === a.owner ? 'reviews' : `${a.reviewer} reviews`} on <Day day={a.reviewOn} />
        </>
      ) : null}
    </>
  );
}

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
