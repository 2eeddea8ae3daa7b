// The client reads and signs on the pair's device, with or without signal.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { AgreementShown, SignerShown } from '@backsight/contract/agreements';
import { agreementQuery } from '../../api/agreements.ts';
import { useMe } from '../../api/people.ts';
import { useSignings } from '../../api/signings.ts';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Changes } from './Changes.tsx';
import { DoorForm } from './DoorForm.tsx';
import { Words } from './Words.tsx';

const route = getRouteApi('/shell/jobs/$jobId/sign/$signerId');

export function DoorPage(): ReactNode {
  const { jobId, signerId } = route.useParams();
  const { data, error, isPending, isPaused } = useQuery(agreementQuery(jobId));
  const agreement = data?.agreement ?? null;
  const signer = agreement?.signers.find(({ id }) => id === signerId);
  return (
    <Page
      title={signer ? `Agreement for ${signer.name}` : 'Sign on this device'}
      about="Please hand the device to the client."
      width="narrow"
      actions={
        <ButtonLink to="/jobs/$jobId/agreement" params={{ jobId }} variant="default">
          Back
        </ButtonLink>
      }
    >
      {agreement ? null : <ProblemNote of={error} />}
      {isPending && !isPaused ? <Loading /> : null}
      {isPending && isPaused ? (
        <Empty>There is no signal, and this phone has not read the agreement yet. Let the client sign on paper and photograph it.</Empty>
      ) : null}
      {agreement && !signer ? <Empty>A newer agreement took the place of this one. Go back and open it.</Empty> : null}
      {agreement && signer ? <Sign agreement={agreement} signer={signer} /> : null}
    </Page>
  );
}

function Sign({ agreement, signer }: { agreement: AgreementShown; signer: SignerShown }): ReactNode {
  const me = useMe();
  const waiting = useSignings(me.id).some(({ signerId }) => signerId === signer.id);
  if (signer.signature || waiting)
    return (
      <p role="status">
        <strong>Signed by {signer.name}.</strong> Thank you.{' '}
        {waiting ? 'The signature is on this phone and is sent as soon as there is signal.' : ''}
      </p>
    );
  const before = agreement.earlier.find(({ signed }) => signed.some(({ name }) => name === signer.name));
  return (
    <>
      {agreement.reviewed ? null : <p>This text is an example that no attorney has reviewed.</p>}
      {before ? <Changes title="What changed since the agreement before" changes={before.changes} /> : null}
      <article aria-label="The agreement">
        <Words body={agreement.body} />
        <p>Your word: {signer.word}</p>
      </article>
      <h2>Electronic records: your choice</h2>
      <p style={{ whiteSpace: 'pre-wrap' }}>{agreement.consentText}</p>
      <DoorForm agreement={agreement} signer={signer} />
    </>
  );
}
