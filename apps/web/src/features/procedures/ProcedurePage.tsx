// One procedure: its steps in force as a document, and its revisions. A lead begins a draft here.
import { useState, type ReactNode } from 'react';
import { Button, Textarea } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import type { RevisionLine } from '@backsight/contract/procedures';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { draftRevision, procedureQuery, revisionQuery } from '../../api/procedures.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useFields } from '../../ui/useFields.ts';
import { When } from '../../ui/When.tsx';
import { StepDocument } from './StepDocument.tsx';
import { mayRevise, standing, systemName } from './words.ts';

const route = getRouteApi('/shell/procedures/$procedureId');

export function ProcedurePage(): ReactNode {
  const { procedureId } = route.useParams();
  const me = useMe();
  const { data, error, isPending } = useQuery(procedureQuery(procedureId));
  const draft = data?.revisions.find(({ state }) => state === 'draft');
  const retired = data?.revisions.find(({ id }) => id === data.inForceId)?.retires === true;
  return (
    <Page title={data?.title ?? 'Procedure'} about={data ? systemName(data.system) : undefined}>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <>
          {data.inForceId === null ? <Empty>No revision is in force.</Empty> : null}
          {retired ? <Empty>This procedure is retired. A new draft takes it up again with the steps it had.</Empty> : null}
          {data.inForceId && !retired ? <InForce id={data.inForceId} /> : null}
          <h2>Revisions</h2>
          <DataTable
            caption="Revisions of this procedure"
            columns={columns(data.inForceId)}
            rows={data.revisions}
            rowKey={({ id }) => id}
          />
          {mayRevise(me.roles) && !draft ? <Begin procedureId={procedureId} mayRetire={data.inForceId !== null && !retired} /> : null}
        </>
      ) : null}
    </Page>
  );
}

const columns = (inForceId: string | null): Column<RevisionLine>[] => [
  {
    key: 'number',
    head: 'Revision',
    cell: ({ id, number }) => (
      <TextLink to="/procedures/revision/$revisionId" params={{ revisionId: id }}>
        Revision {number}
      </TextLink>
    ),
  },
  { key: 'state', head: 'State', cell: (row) => standing(row, row.id === inForceId) },
  { key: 'reason', head: 'Reason', cell: ({ reason }) => reason },
  { key: 'author', head: 'By', cell: ({ author, approver }) => (approver ? `${author}, approved by ${approver}` : author) },
  { key: 'from', head: 'In force from', cell: ({ inForceFrom }) => (inForceFrom ? <When at={inForceFrom} /> : '') },
];

function InForce({ id }: { id: string }): ReactNode {
  const { data, error, isPending } = useQuery(revisionQuery(id));
  return (
    <section aria-label="Steps in force">
      <h2>{data ? `Revision ${data.number}, in force` : 'In force'}</h2>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data?.steps.map((one, at) => (
        <StepDocument key={one.step.key} of={one} number={at + 1} traced />
      ))}
    </section>
  );
}

const LABELS = { reason: 'Why the procedure is to change' };

function Begin({ procedureId, mayRetire }: { procedureId: string; mayRetire: boolean }): ReactNode {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const [{ id, key }, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const begin = useMutation({
    mutationFn: draftRevision,
    onSuccess: async (_, { retires }) => {
      await queries.invalidateQueries({ queryKey: ['procedures'] });
      const params = { revisionId: id };
      await navigate(retires ? { to: '/procedures/revision/$revisionId', params } : { to: '/procedures/draft/$revisionId', params });
    },
    onError: () => setIds({ id: newId(), key: newId() }),
  });
  const fields = useFields({ reason: '' }, LABELS, begin.error, undefined, procedureId);
  const send = (retires: boolean) => begin.mutate({ id, key, procedureId, reason: fields.values.reason, retires });
  return (
    <section aria-label="Draft a revision">
      <h2>Draft a revision</h2>
      <Form
        error={begin.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Begin a draft"
        busy={begin.isPending}
        onSubmit={() => send(false)}
      >
        <Textarea
          {...fields.text('reason')}
          autosize
          minRows={2}
          maw={640}
          required
          description="Every inspector reads this on the phone: no client, address or amount."
        />
      </Form>
      {mayRetire ? (
        <>
          <p>To retire the procedure instead, say why above. Somebody else approves that too; until then its steps stay in force.</p>
          <Button variant="default" disabled={begin.isPending} onClick={() => send(true)}>
            Draft its retirement
          </Button>
        </>
      ) : null}
    </section>
  );
}
