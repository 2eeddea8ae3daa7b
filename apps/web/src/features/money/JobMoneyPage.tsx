// The money of one job: its invoices, the terms of payment, and in which parts several payers pay.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, NumberInput, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { JobTerms } from '@backsight/contract/fees/terms';
import { formatUsd } from '@backsight/domain/shared/money';
import { issueInvoice, jobInvoicesQuery, setShares, setTerms, termsQuery, type Terms } from '../../api/fees.ts';
import { newId } from '../../api/ids.ts';
import { centsOf, dollarsOf } from '../../ui/amount.ts';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { JobInvoices } from './JobInvoices.tsx';

const route = getRouteApi('/shell/jobs/$jobId/money');

export function JobMoneyPage(): ReactNode {
  const { jobId } = route.useParams();
  const terms = useQuery(termsQuery(jobId));
  const invoices = useQuery(jobInvoicesQuery(jobId));
  const [key, setKey] = useState(newId);
  const issue = useSend(issueInvoice, { refresh: ['money'], said: 'The invoices say the fee as it is now.', then: () => setKey(newId()) });
  return (
    <Page
      title={terms.data ? `Money of job ${terms.data.number}` : 'Money of the job'}
      about={
        terms.data ? (
          <>
            The fee is {formatUsd(terms.data.feeCents)}.{' '}
            <TextLink to="/jobs/$jobId" params={{ jobId }}>
              Back to the job
            </TextLink>
          </>
        ) : (
          ''
        )
      }
      actions={
        <Button variant="default" loading={issue.isPending} onClick={() => issue.mutate({ jobId, key })}>
          Invoice what is not invoiced yet
        </Button>
      }
    >
      <ProblemNote of={terms.error ?? invoices.error ?? issue.error} />
      {terms.isPending ? <Loading /> : null}
      {invoices.data ? <JobInvoices invoices={invoices.data} /> : null}
      {terms.data ? <TermsForm key={JSON.stringify(terms.data)} jobId={jobId} now={terms.data} /> : null}
      {terms.data && terms.data.payers.length > 1 ? <SharesForm jobId={jobId} now={terms.data} /> : null}
    </Page>
  );
}

const TERMS: Record<Terms['terms'], string> = {
  due_at_booking: 'Due at booking',
  due_at_visit: 'Due at the visit',
  deposit: 'Deposit at booking, the rest at the visit',
  billed_to_closing: 'Billed to the closing',
};
const LABELS = {
  terms: 'Terms',
  depositPercent: 'Deposit, percent of the total',
  depositCents: 'or deposit, dollars',
  dueOn: 'Day of the closing',
};

function TermsForm({ jobId, now }: { jobId: string; now: JobTerms }): ReactNode {
  const save = useSend(setTerms, { refresh: ['money'], said: 'Saved. Invoices that stand are due by these terms.' });
  const start = {
    terms: now.terms,
    depositPercent: now.depositPercent === null ? '' : String(now.depositPercent),
    depositCents: now.depositCents === null ? '' : dollarsOf(now.depositCents),
    dueOn: now.dueOn ?? '',
  };
  const fields = useFields(start, LABELS, save.error, 'terms');
  const { terms, depositPercent, depositCents, dueOn } = fields.values;
  const deposit = terms === 'deposit';
  const send = () =>
    save.mutate({
      jobId,
      terms,
      depositPercent: deposit && depositPercent !== '' ? Number(depositPercent) : null,
      depositCents: deposit && depositCents !== '' ? centsOf(depositCents) : null,
      dueOn: terms === 'billed_to_closing' && dueOn !== '' ? dueOn : null,
    });
  return (
    <Section title="Terms of payment">
      <Form
        error={save.error}
        labels={LABELS}
        scope="terms"
        draft={fields.draft}
        submit="Save the terms"
        busy={save.isPending}
        onSubmit={send}
      >
        <NativeSelect {...fields.text('terms')} maw="24rem" data={Object.entries(TERMS).map(([value, label]) => ({ value, label }))} />
        {deposit ? (
          <>
            <TextInput
              {...fields.text('depositPercent')}
              mt="sm"
              maw="24rem"
              inputMode="numeric"
              description={`Left empty: ${now.rules.depositPercent}%, the firm's rule. A deposit is held for the client until the visit begins.`}
            />
            <TextInput {...fields.text('depositCents')} mt="sm" maw="24rem" inputMode="decimal" />
          </>
        ) : null}
        {terms === 'billed_to_closing' ? (
          <TextInput
            {...fields.text('dueOn')}
            type="date"
            mt="sm"
            maw="24rem"
            description={`The fee is due on this day whether or not the sale closes. Left empty: ${now.rules.closingDays} days after the visit.`}
          />
        ) : null}
      </Form>
    </Section>
  );
}

function SharesForm({ jobId, now }: { jobId: string; now: JobTerms }): ReactNode {
  const save = useSend(setShares, { refresh: ['money'], said: 'Saved. It counts when the invoice is issued anew.' });
  const labels = Object.fromEntries(now.payers.map(({ partyId, name }) => [partyId, `Parts of ${name}`]));
  const fields = useFields<Record<string, number>>(
    Object.fromEntries(now.payers.map(({ partyId, weight }) => [partyId, weight ?? 1])),
    labels,
    save.error,
    'shares',
  );
  const send = () => save.mutate({ jobId, shares: now.payers.map(({ partyId }) => ({ partyId, weight: fields.values[partyId] ?? 0 })) });
  return (
    <Section title="Shares of the payers">
      <p>
        {now.rules.severalPayers
          ? 'The fee is shared in these parts; odd cents go to the largest remainder.'
          : 'By firm policy one party pays for a job. The owner may change that in the rules about money.'}
      </p>
      <Form error={save.error} labels={labels} scope="shares" submit="Save the shares" busy={save.isPending} onSubmit={send}>
        {now.payers.map(({ partyId }) => {
          const { value, onChange, ...rest } = fields.value(partyId);
          return (
            <NumberInput
              key={partyId}
              {...rest}
              mt="sm"
              maw="24rem"
              value={value as number}
              onChange={(typed) => onChange(Number(typed))}
              allowDecimal={false}
              allowNegative={false}
            />
          );
        })}
      </Form>
    </Section>
  );
}
