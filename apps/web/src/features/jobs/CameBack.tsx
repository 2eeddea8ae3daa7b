// Payments of a job that came back, while their invoice is open: how, what is open, and whether the report had left before.
import type { ReactNode } from 'react';
import { Alert } from '@mantine/core';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { TextLink } from '../../ui/links.tsx';
import { Money } from '../../ui/Money.tsx';
import { Day } from '../../ui/When.tsx';

export function CameBack({ job }: { job: Job }): ReactNode {
  return job.cameBack.map(({ paymentId, invoiceId, number, cents, what, on, openCents, handedOverOn }) => (
    <Alert key={paymentId} title="A payment came back" color="orange" mb="md">
      <Money cents={cents} /> on{' '}
      <TextLink to="/invoices/$invoiceId" params={{ invoiceId }}>
        {`invoice ${number}`}
      </TextLink>
      : {what}, <Day day={on} />. <Money cents={openCents} /> is open.{' '}
      {handedOverOn ? (
        <>
          The report had been handed over on <Day day={handedOverOn} />; that stands.{' '}
        </>
      ) : null}
      <a href={`/api/payments/${paymentId}/evidence`} target="_blank" rel="noreferrer">
        Everything on file for a dispute (PDF)
      </a>
    </Alert>
  ));
}
