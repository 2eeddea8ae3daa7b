// The agreement of a job: its words, who has signed, and what to do about those who have not.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { AgreementShown } from '@backsight/contract/agreements';
import { agreementQuery, issueAgreement } from '../../api/agreements.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { When } from '../../ui/When.tsx';
import { Paper } from './Paper.tsx';
import { SignerCard } from './SignerCard.tsx';

const route = getRouteApi('/shell/jobs/$jobId/agreement');

export function AgreementPage(): ReactNode {
  const { jobId } = route.useParams();
  const answer = useQuery(agreementQuery(jobId));
  const agreement = answer.data?.agreement ?? null;
  return (
    <Page
      title={agreement ? `Agreement of job ${agreement.jobNumber}` : 'Agreement'}
      about="By firm policy the agreement is signed before the visit."
      width="narrow"
      actions={
        <TextLink to="/jobs/$jobId" params={{ jobId }}>
          Back to the job
        </TextLink>
      }
    >
      <ProblemNote of={answer.error} />
      {answer.isPending ? <Loading /> : null}
      {answer.data && !agreement ? <Empty>No agreement was issued for this job yet.</Empty> : null}
      {agreement ? <Shown agreement={agreement} /> : null}
      {answer.data ? <Issue jobId={jobId} again={agreement !== null} /> : null}
    </Page>
  );
}

function Shown({ agreement }: { agreement: AgreementShown }): ReactNode {
  return (
    <>
      <p>
        Issued <When at={agreement.issuedAt} />
        {agreement.issues > 1 ? `; it took the place of ${agreement.issues - 1} before it` : ''}.{' '}
        {agreement.reviewed ? '' : 'Its text is an example that no attorney has reviewed.'}
      </p>
      {agreement.signers.map((signer) => (
        <SignerCard key={signer.id} signer={signer} jobId={agreement.jobId} />
      ))}
      <Paper title="Read the agreement" body={agreement.body} />
      <p style={{ overflowWrap: 'anywhere' }}>Fingerprint (SHA-256): {agreement.sha256}</p>
    </>
  );
}

function Issue({ jobId, again }: { jobId: string; again: boolean }): ReactNode {
  const me = useMe();
  const queries = useQueryClient();
  const [key, setKey] = useState(newId);
  const save = useMutation({
    mutationFn: () => issueAgreement({ jobId, key }),
    onSuccess: async ({ warnings }) => {
      await queries.invalidateQueries({ queryKey: ['agreements'] });
      setKey(newId());
      saved(warnings.map(({ text }) => text).join(' ') || 'The agreement is issued; links go out within seconds.');
    },
  });
  if (!me.roles.some((role) => role === 'owner' || role === 'office_manager')) return null;
  return (
    <>
      <ProblemNote of={save.error} />
      <Button mt="md" variant={again ? 'default' : 'filled'} loading={save.isPending} onClick={() => save.mutate()}>
        {again ? 'Issue again with what has changed' : 'Issue the agreement'}
      </Button>
      {again ? <p>If nothing changed, the agreement stays as it is. Else a new one takes its place and needs new signatures.</p> : null}
    </>
  );
}
