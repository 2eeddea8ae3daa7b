// What an inspector reads on the phone before working by a revision, and the one act that says so.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { ComparisonPage } from '@backsight/contract/procedures';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { acknowledgementsQuery, acknowledgeRevision, comparisonQuery } from '../../api/procedures.ts';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { AskQuestions } from './AskQuestions.tsx';
import { Differences } from './Differences.tsx';
import { mustAcknowledge } from './words.ts';

const route = getRouteApi('/shell/procedures/acknowledge/$revisionId');

export function AcknowledgePage(): ReactNode {
  const { revisionId } = route.useParams();
  const { data, error, isPending } = useQuery(comparisonQuery(revisionId));
  return (
    <Page
      title="Read what is different"
      width="narrow"
      about={
        data ? (
          <>
            Revision {data.revision.number}.{' '}
            {data.revision.inForceFrom ? (
              <>
                In force from <When at={data.revision.inForceFrom} />.
              </>
            ) : null}
          </>
        ) : undefined
      }
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <>
          <p>{data.revision.reason}</p>
          <Differences of={data} />
          {data.revision.state === 'approved' ? <Confirm of={data} /> : <p>This revision is not approved.</p>}
        </>
      ) : null}
      <p>
        <TextLink to="/procedures">All procedures</TextLink>
      </p>
    </Page>
  );
}

function Confirm({ of }: { of: ComparisonPage }): ReactNode {
  const me = useMe();
  const { id } = of.revision;
  const [key] = useState(newId);
  const { data, error } = useQuery(acknowledgementsQuery(id));
  const confirm = useSend(acknowledgeRevision, { refresh: ['procedures'], said: 'Thank you. This is on file.' });
  if (!data) return <ProblemNote of={error} />;
  const own = data.people.find(({ personId }) => personId === me.id);
  if (own?.happenedAt)
    return (
      <p role="status">
        <strong>
          You acknowledged this on <When at={own.happenedAt} />.
        </strong>
      </p>
    );
  if (!data.asked || !mustAcknowledge(me.roles)) return <p>Nobody asks you to acknowledge this revision.</p>;
  return (
    <>
      <ProblemNote of={confirm.error} />
      {data.acknowledgeBy ? (
        <p>
          Please confirm by <When at={data.acknowledgeBy} />. After that you are not offered for new visits until you have.
        </p>
      ) : null}
      {data.open.length > 0 ? (
        <AskQuestions of={of} />
      ) : (
        <Button size="xl" fullWidth loading={confirm.isPending} onClick={() => confirm.mutate({ id, key })}>
          I have read this and will work by it
        </Button>
      )}
    </>
  );
}
