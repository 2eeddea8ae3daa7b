// The papers of a job and how far each is, and what happened to the job.
import type { ReactNode } from 'react';
import { JOB_STATES, TERMS, type JobPage as Job } from '@backsight/contract/jobs';
import { Details } from '../../ui/Details.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import classes from './jobs.module.css';

/** `keepsMoney`: may open invoices and terms; the others read how they stand. */
export function Papers({ job, keepsMoney }: { job: Job; keepsMoney: boolean }): ReactNode {
  const { agreement, invoice, report, callbacks, visits } = job;
  const record = visits.find(({ recordState }) => recordState !== null)?.recordState;
  return (
    <section aria-label="Papers">
      <h2>Papers</h2>
      <Details
        rows={[
          [
            'Agreement',
            agreement ? (
              <TextLink to="/jobs/$jobId/agreement" params={{ jobId: job.id }}>
                issued <When at={agreement.issuedAt} />, signed by {agreement.signed} of {agreement.signers}
              </TextLink>
            ) : (
              'not issued yet'
            ),
          ],
          [
            'Invoice',
            invoice === null ? (
              'not issued yet'
            ) : keepsMoney ? (
              <TextLink to="/invoices/$invoiceId" params={{ invoiceId: invoice.id }}>
                <InvoiceStands invoice={invoice} />
              </TextLink>
            ) : (
              <InvoiceStands invoice={invoice} />
            ),
          ],
          [
            'Terms and payers',
            keepsMoney ? (
              <TextLink key="money" to="/jobs/$jobId/money" params={{ jobId: job.id }}>
                {TERMS[job.terms]}
              </TextLink>
            ) : (
              TERMS[job.terms]
            ),
          ],
          record && [
            'Site record',
            <TextLink key="record" to="/jobs/$jobId/record" params={{ jobId: job.id }}>
              {record}
            </TextLink>,
          ],
          report && [
            'Report',
            <TextLink key="report" to="/jobs/$jobId/report" params={{ jobId: job.id }}>
              version {report.version}, {report.handedOver ? 'handed over' : 'not handed over yet'}
            </TextLink>,
          ],
          callbacks.length > 0 && [
            'Callbacks',
            callbacks.map(({ id, number, state }) => (
              <div key={id}>
                <TextLink to="/callbacks/$callbackId" params={{ callbackId: id }}>
                  {number}, {state.replaceAll('_', ' ')}
                </TextLink>
              </div>
            )),
          ],
        ].flatMap((row) => (row ? [row as [string, ReactNode]] : []))}
      />
    </section>
  );
}

const InvoiceStands = ({ invoice }: { invoice: NonNullable<Job['invoice']> }): ReactNode => (
  <>
    {invoice.number}, {invoice.state}: <Money cents={invoice.paidCents} /> of <Money cents={invoice.totalCents} /> paid
    {invoice.state === 'withdrawn' && invoice.paidCents > 0 ? ', to be given back' : ''}
  </>
);

const EVENTS: Record<string, string> = {
  held: 'Time held',
  placed: 'Placed',
  confirmed: 'Booking confirmed',
  lapsed: 'Hold ended',
  cancelled: 'Cancelled',
  moved: 'Visit moved',
  taken_off: 'Visit taken off the calendar',
  visit_added: 'Visit added',
  hold_extended: 'Hold extended',
  observer_added: 'Somebody comes along',
  observer_removed: 'Somebody no longer comes along',
  provider_chosen: 'Outside provider chosen',
  facts_learned: 'Something learned of the house',
  need: 'Still-to-get list noted',
  discounted: 'Discount given or taken off',
  fee_decided: 'Fee decided',
  visit_ended: 'Visit ended early',
  report_owed: 'Said whether a report is owed',
  attendance: 'Noted who attends',
  party_added: 'Person added',
  party_removed: 'Person taken off',
  started: 'Visit started',
  visited: 'Visit ended',
  reported: 'Report handed over',
};

export function History({ job }: { job: Job }): ReactNode {
  return (
    <Section title="History" folds>
      <ul className={classes.history}>
        {[...job.events].reverse().map((event) => (
          <li key={event.seq}>
            <When at={event.happenedAt} />: {EVENTS[event.kind] ?? event.kind.replaceAll('_', ' ')}
            {event.about ? `: ${event.about}` : ''}
            {event.startsAt ? (
              <>
                : now <When at={event.startsAt} />
              </>
            ) : null}
            {event.actor ? `, ${event.actor}` : ''} ({JOB_STATES[event.state]}){event.text ? `: ${event.text}` : ''}
          </li>
        ))}
      </ul>
    </Section>
  );
}
