// The agreement of a job: its words, who has signed, and what to do about those who have not.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { AgreementShown } from '@backsight/contract/agreements';
import { agreementQuery } from '../../api/agreements.ts';
import { mailSettingsQuery } from '../../api/mail.ts';
import { useMe } from '../../api/people.ts';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { Changes } from './Changes.tsx';
import { Issue } from './Issue.tsx';
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

/** A client who got no mail has no link: the office is told where it waits, and what goes without it. */
function MailStays(): ReactNode {
  const office = useMe().roles.some((role) => role === 'owner' || role === 'office_manager');
  const { data } = useQuery({ ...mailSettingsQuery, enabled: office });
  if (!data || (data.server !== null && data.pausedAt === null)) return null;
  return (
    <p>
      <strong>{data.server === null ? 'No mail server is set, so links do not reach clients.' : 'Mail is paused, so links wait.'}</strong>{' '}
      {data.server === null ? (
        'Copy each link below and pass it on.'
      ) : (
        <>
          They lie in the <TextLink to="/mail">Outbox</TextLink>.
        </>
      )}{' '}
      The client can also sign on this device, or on paper.
    </p>
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
      {agreement.signers.every(({ signature }) => signature) ? null : <MailStays />}
      {agreement.signers.map((signer) => (
        <SignerCard key={signer.id} signer={signer} jobId={agreement.jobId} />
      ))}
      <Paper title="Read the agreement" body={agreement.body} />
      <p style={{ overflowWrap: 'anywhere' }}>Fingerprint of the words (SHA-256): {agreement.sha256}</p>
      <p style={{ overflowWrap: 'anywhere' }}>
        <a href={`/api/agreements/${agreement.id}/paper`}>The agreement as a PDF</a>
        {agreement.sealed ? (
          <>
            , sealed <When at={agreement.sealed.at} />. Fingerprint of the file (SHA-256): {agreement.sealed.sha256}
          </>
        ) : null}
      </p>
      <Earlier agreement={agreement} />
    </>
  );
}

function Earlier({ agreement }: { agreement: AgreementShown }): ReactNode {
  if (agreement.earlier.length === 0) return null;
  return (
    <section aria-label="Agreements before this one">
      <h2>Agreements before this one</h2>
      {agreement.earlier.map((one) => (
        <div key={one.id}>
          <p>
            Issued <When at={one.issuedAt} />; {one.signed.length === 0 ? 'signed by nobody' : null}
            {one.signed.map(({ name, at, late }, n) => (
              <span key={at + name}>
                {n > 0 ? ', ' : 'signed by '}
                {name} <When at={at} />
                {late ? <strong> (after a newer one was issued: it does not count for the visit)</strong> : null}
              </span>
            ))}
            . <a href={`/api/agreements/${one.id}/paper`}>As a PDF</a>
          </p>
          <Changes title="What the next one changed" changes={one.changes} />
        </div>
      ))}
    </section>
  );
}
