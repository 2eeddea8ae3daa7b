// Corrective actions of the firm, open ones first.
import type { ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { ACTION_KINDS } from '@backsight/contract/callbacks';
import type { CorrectiveAction } from '@backsight/contract/callbacks/actions';
import { actionsQuery, finishAction } from '../../api/callbacks.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';

const COLUMNS: Column<CorrectiveAction>[] = [
  { key: 'title', head: 'Action', cell: (a) => `${a.number}: ${a.title}` },
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
  { key: 'due', head: 'Due', cell: (a) => <Day day={a.dueOn} /> },
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
  { key: 'state', head: 'State', cell: (a) => <State action={a} /> },
];

function State({ action: a }: { action: CorrectiveAction }): ReactNode {
  const send = useSend(finishAction, { refresh: ['callbacks'], said: 'Noted.' });
  if (a.state !== 'open')
    return a.state === 'done' && a.doneAt ? (
      <>
        Done <When at={a.doneAt} />
      </>
    ) : (
      'Dropped'
    );
  return (
    <>
      <ProblemNote of={send.error} />
      <Group gap="xs">
        {a.kind === 'revision' ? null : (
          <Button variant="default" size="compact-sm" onClick={() => send.mutate({ id: a.id, outcome: 'done' })}>
            Done
          </Button>
        )}
        <Button variant="default" size="compact-sm" onClick={() => send.mutate({ id: a.id, outcome: 'dropped' })}>
          Drop
        </Button>
      </Group>
    </>
  );
}

export function ActionsPage(): ReactNode {
  const list = useQuery(actionsQuery());
  return (
    <Page
      title="Corrective actions"
      about="What is changed because of callbacks: a revision of a procedure, training or kit. A revision is done by itself when it is in force."
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
